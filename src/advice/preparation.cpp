#include "advice/preparation.hpp"

#include "advice/spot.hpp"

namespace halfsplit::advice {

Preparation preparation(const harness::Harness& harness, const Arrangement& arrangement) {
    Preparation result;
    result.minutes = arrangement.site.minutes;
    switch (arrangement.step) {
        case ArrangingStep::None:
            break;
        case ArrangingStep::Unplug:
            result.step = "unplug";
            result.spot = spot_of_part(harness, arrangement.part);
            break;
        case ArrangingStep::PlugIn:
            result.step = "plug";
            result.spot = spot_of_part(harness, arrangement.part);
            break;
        case ArrangingStep::MoveClip:
            result.step = "clip";
            result.spot = spot_of(harness, diagnosis::at(harness.points[arrangement.clip].terminal[0]));
            result.point = point_name(harness, arrangement.clip);
            break;
    }
    return result;
}

std::optional<Preparation> switching(const harness::Harness& harness, electrics::Power now,
                                     electrics::Power then) {
    if (now == then) return std::nullopt;
    Preparation result;
    result.step = then == electrics::Power::Off     ? "power-off"
                  : then == electrics::Power::Awake ? "wake"
                                                    : "sleep";
    result.minutes = power_minutes(now, then, harness.assumptions);
    return result;
}

std::string in_words(const Preparation& first) {
    if (first.step == "wake") return "battery on, bus awake";
    if (first.step == "sleep") return "battery on, bus asleep";
    if (first.step == "power-off") return "battery off";
    if (first.step == "unplug") return "unplug " + first.spot.part;
    if (first.step == "plug") return "plug " + first.spot.part + " in";
    return first.step.empty() ? "" : "clip to " + first.point;
}

}  // namespace halfsplit::advice
