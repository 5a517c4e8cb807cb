// American wire gauge.
#pragma once

namespace halfsplit {

// Cross-section in mm2. Diameter rule of ASTM B258: d = 0.127 mm * 92^((36 - gauge) / 39). `gauge` from 0
// to 40.
double awg_section_mm2(double gauge);

}  // namespace halfsplit
