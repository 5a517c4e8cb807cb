#include "halfsplit/electrics/conductor.hpp"

#include <cmath>
#include <numbers>

namespace halfsplit::electrics {

double copper_ohm_per_m(double section_mm2, double temperature_celsius) {
    return copper_ohm_mm2_per_m / section_mm2 * (1.0 + copper_per_kelvin * (temperature_celsius - 20.0));
}

double awg_section_mm2(double gauge) {
    const double diameter_mm = 0.127 * std::pow(92.0, (36.0 - gauge) / 39.0);
    return std::numbers::pi / 4.0 * diameter_mm * diameter_mm;
}

}  // namespace halfsplit::electrics
