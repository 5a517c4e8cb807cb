#include "halfsplit/harness/vehicle.hpp"

#include <algorithm>

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

std::vector<Index> modules_on(const Harness& harness, Index network) {
    std::vector<Index> result;
    for (Index part = 0; part < harness.parts.size(); ++part) {
        const Part& own = harness.parts[part];
        if (own.kind != PartKind::Module || own.fitted == Fitted::No) continue;
        const bool on_bus =
            std::any_of(own.attachments.begin(), own.attachments.end(),
                        [&](const Attachment& attachment) { return attachment.network == network; });
        if (on_bus) result.push_back(part);
    }
    return result;
}

}  // namespace halfsplit::harness
