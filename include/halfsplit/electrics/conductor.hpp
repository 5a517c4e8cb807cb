// Copper conductors: ohms per metre.
#pragma once

namespace halfsplit::electrics {

// Resistivity of annealed copper at 20 degC: 0.017241 ohm mm2 / m (IEC 60028; NBS Handbook 100).
inline constexpr double copper_ohm_mm2_per_m = 0.017241;
// Temperature coefficient at 20 degC, per kelvin (IEC 60028).
inline constexpr double copper_per_kelvin = 0.00393;

// section in mm2, above 0; temperature in degC.
double copper_ohm_per_m(double section_mm2, double temperature_celsius = 20.0);
// Diameter rule of ASTM B258: d = 0.127 mm * 92^((36 - n) / 39). `gauge` from 0 to 40.
double awg_section_mm2(double gauge);

}  // namespace halfsplit::electrics
