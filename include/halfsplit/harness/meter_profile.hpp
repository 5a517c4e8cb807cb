// What is known of a meter, by name. The figures of the named ones are common practice, no source: a look at
// the sheet that came with the meter is better, and a job can state its figures one by one.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <string>
#include <vector>

namespace halfsplit::harness {

struct MeterProfile {
    std::string name;
    double percent = 0, digits = 0;  // accuracy: of the figure, and of the last place shown on top
    double counts = 0;               // shown on each range: 4000, 6000, ...
    double lead_ohm = 0;             // what the leads add
    double limit_ohm = 0;            // OL from here
    double buzzer_low_ohm = 0, buzzer_high_ohm = 0;  // always sounds below, never above
    bool operator==(const MeterProfile&) const = default;
};

// "plain" (what is assumed where nobody says), "fine", "rough".
const std::vector<MeterProfile>& meter_profiles();

// The meter of these assumptions from now on.
void use(const MeterProfile& meter, Assumptions& assumptions);

}  // namespace halfsplit::harness
