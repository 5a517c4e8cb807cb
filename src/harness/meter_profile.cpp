#include "halfsplit/harness/meter_profile.hpp"

namespace halfsplit::harness {

const std::vector<MeterProfile>& meter_profiles() {
    static const Assumptions usual;
    static const std::vector<MeterProfile> profiles{
        {"plain", usual.meter_percent, usual.meter_digits, usual.meter_counts, usual.meter_lead_ohm,
         usual.meter_limit_ohm, usual.buzzer_low_ohm, usual.buzzer_high_ohm},
        {"fine", 0.2, 2, 50'000, 0.1, 50e6, 20, 40},
        {"rough", 2, 5, 2000, 0.5, 2e6, 20, 120},
    };
    return profiles;
}

void use(const MeterProfile& meter, Assumptions& assumptions) {
    assumptions.meter_percent = meter.percent;
    assumptions.meter_digits = meter.digits;
    assumptions.meter_counts = meter.counts;
    assumptions.meter_lead_ohm = meter.lead_ohm;
    assumptions.meter_limit_ohm = meter.limit_ohm;
    assumptions.buzzer_low_ohm = meter.buzzer_low_ohm;
    assumptions.buzzer_high_ohm = meter.buzzer_high_ohm;
}

}  // namespace halfsplit::harness
