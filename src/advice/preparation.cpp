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
            result.spot = spot_of(
                harness, {diagnosis::Contact::Kind::Terminal, harness.points[arrangement.clip].terminal[0]});
            result.point = point_name(harness, arrangement.clip);
            break;
    }
    return result;
}

std::string in_words(const Preparation& first) {
    if (first.step == "unplug") return "unplug " + first.spot.part;
    if (first.step == "plug") return "plug " + first.spot.part + " in";
    return first.step.empty() ? "" : "clip to " + first.point;
}

}  // namespace halfsplit::advice
