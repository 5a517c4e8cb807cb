#include "halfsplit/diagnosis/explanation.hpp"

#include <algorithm>

namespace halfsplit::diagnosis {

bool is_of_contacts(const harness::Harness& harness, const Fault& fault) {
    switch (fault.mode) {
        case Mode::Receded:
        case Mode::Apart:
        case Mode::BridgeAbsent:
            return true;
        case Mode::BadJoint:
            return fault.part != harness::none && harness.parts[fault.part].kind != harness::PartKind::Run &&
                   harness.parts[fault.part].kind != harness::PartKind::Splice;
        default:
            return false;
    }
}

std::vector<Fault> unmended(const harness::Harness& harness, const Explanation& explanation,
                            const Situation& situation) {
    if (explanation.repair_failed || situation.repaired.empty()) return explanation.faults;
    std::vector<Fault> left;
    for (const Fault& fault : explanation.faults) {
        const auto mends = [&](const Repaired& repair) {
            return repair.part == fault.part && (!repair.reseated || is_of_contacts(harness, fault));
        };
        if (std::none_of(situation.repaired.begin(), situation.repaired.end(), mends)) left.push_back(fault);
    }
    return left;
}

std::vector<Fault> remaining(const harness::Harness& harness, const Explanation& explanation,
                             const Situation& situation) {
    std::vector<Fault> left = unmended(harness, explanation, situation);
    if (!explanation.reseat_cured || left.empty() || !(left.front() == explanation.faults.front()))
        return left;
    const bool reseated = std::binary_search(situation.reseated.begin(), situation.reseated.end(),
                                             explanation.faults.front().part);
    if (reseated) left.erase(left.begin());
    return left;
}

}  // namespace halfsplit::diagnosis
