// What is known of the meter and of the hand that holds it.
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/harness/meter_profile.hpp"

#include <fmt/format.h>

#include "entries.hpp"
#include "keys.hpp"
#include "value.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::job {

namespace {

constexpr const char* meter_example = "For example: meter fine, or: meter mine percent=0.8 digits=3";

std::vector<std::string> profile_names() {
    std::vector<std::string> names;
    for (const harness::MeterProfile& profile : harness::meter_profiles()) names.push_back(profile.name);
    return names;
}

// One figure, or two with a dash between: the buzzer sounds for sure below the one and never above the other.
void take_buzzer(const Input& input, const std::string& value, harness::MeterProfile& meter) {
    const std::size_t dash = value.find('-');
    const char* form = "ohms, like buzzer=30 or buzzer=20-120";
    meter.buzzer_low_ohm = ohms_in(input, value.substr(0, dash), form);
    meter.buzzer_high_ohm =
        dash == std::string::npos ? meter.buzzer_low_ohm : ohms_in(input, value.substr(dash + 1), form);
    const bool a_range = meter.buzzer_low_ohm > 0 && meter.buzzer_low_ohm <= meter.buzzer_high_ohm &&
                         std::isfinite(meter.buzzer_high_ohm);
    if (!a_range)
        input.refuse_last({"event-value", fmt::format("'{}' is no range of ohms that fits here", value),
                           "the lower figure first, both above 0", "", "For example: buzzer=20-120"});
}

void take_figures(Input& input, harness::MeterProfile& meter) {
    Keys keys(input, {"percent", "digits", "counts", "leads", "limit", "buzzer"}, meter_example);
    while (keys.next()) {
        const std::string& value = keys.value();
        if (keys.name() == "percent") meter.percent = number_in(input, value, 20, "percent=0.8");
        if (keys.name() == "digits") meter.digits = number_in(input, value, 100, "digits=3");
        if (keys.name() == "counts") meter.counts = number_in(input, value, 1e7, "counts=6000");
        if (keys.name() == "leads") meter.lead_ohm = ohms_in(input, value, "ohms, like leads=0.2");
        if (keys.name() == "limit") meter.limit_ohm = ohms_in(input, value, "ohms, like limit=40M");
        if (keys.name() == "buzzer") take_buzzer(input, value, meter);
        const bool possible = meter.counts >= 100 && meter.lead_ohm <= 100 && meter.limit_ohm >= 1000 &&
                              std::isfinite(meter.limit_ohm);
        if (!possible)
            input.refuse_last({"event-value", fmt::format("{}={} is no meter's", keys.name(), value),
                               "counts from 100, leads up to 100 ohm, a limit from 1000 ohm", "",
                               meter_example});
    }
}

}  // namespace

Body meter(Input& input, const Context&) {
    input.take();
    const std::vector<std::string> names = profile_names();
    const std::string expected = "the name of a meter: " + join_words(names) + ", or one of your own";
    if (input.done() || input.peek().find('=') != std::string::npos)
        input.refuse_next({"event-word-missing", "the meter has no name", expected, "", meter_example});
    std::string name = lower(input.peek());
    const auto& profiles = harness::meter_profiles();
    const auto known = std::find_if(profiles.begin(), profiles.end(),
                                    [&](const auto& profile) { return profile.name == name; });
    harness::MeterProfile meter = known != profiles.end() ? *known : profiles.front();
    if (input.is_last()) {
        input.take();
        if (known == profiles.end())
            input.refuse_last({"event-name-unknown", fmt::format("no meter is named '{}'", name), expected,
                               nearest_name(name, names), meter_example});
        return MeterUsed{meter};
    }
    take_figures(input, meter);
    meter.name = known != profiles.end() ? name + ", changed" : name;
    return MeterUsed{meter};
}

Body pins(Input& input, const Context&) {
    constexpr const char* example = "For example: pins tried=20 slips=1";
    Keys keys(input, {"tried", "slips"}, example);
    PinsTried pins;
    while (keys.next()) {
        const double number = number_in(input, keys.value(), 1000, "tried=20");
        if (number != std::floor(number))
            input.refuse_last({"event-value", fmt::format("{} is no number of pins", keys.value()),
                               "a whole number", "", example});
        (keys.name() == "tried" ? pins.tried : pins.slips) = static_cast<std::uint64_t>(number);
    }
    if (pins.tried == 0 || pins.slips > pins.tried)
        input.refuse_last({"event-value", "slips are counted among the pins tried",
                           "how many pins known to be good were tried, and how many of them read wrong", "",
                           example});
    return pins;
}

}  // namespace halfsplit::job
