#include "halfsplit/base/wire_gauge.hpp"

#include <cmath>
#include <numbers>

namespace halfsplit {

double awg_section_mm2(double gauge) {
    const double diameter_mm = 0.127 * std::pow(92.0, (36.0 - gauge) / 39.0);
    return std::numbers::pi / 4.0 * diameter_mm * diameter_mm;
}

}  // namespace halfsplit
