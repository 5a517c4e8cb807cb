#include "halfsplit/harness/vehicle.hpp"

namespace halfsplit::harness {

namespace {

Fitted opposite(Fitted fitted) {
    if (fitted == Fitted::Unknown) return fitted;
    return fitted == Fitted::Yes ? Fitted::No : Fitted::Yes;
}

}  // namespace

std::vector<Fitted> presence(const Harness& harness) {
    std::vector<Fitted> present;
    present.reserve(harness.parts.size());
    for (const Part& part : harness.parts) {
        if (part.kind != PartKind::BridgePlug) {
            present.push_back(part.fitted);
        } else if (part.stands_in_for_part != none) {
            present.push_back(opposite(harness.parts[part.stands_in_for_part].fitted));
        } else {
            present.push_back(opposite(harness.options.at(part.stands_in_for_option).fitted));
        }
    }
    return present;
}

}  // namespace halfsplit::harness
