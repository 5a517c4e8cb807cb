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

bool is_unmended(const harness::Harness& harness, const Explanation& explanation, const Fault& fault,
                 const Situation& situation) {
    const auto mends = [&](const Repaired& repair) {
        return repair.part == fault.part && (!repair.reseated || is_of_contacts(harness, fault));
    };
    return explanation.repair_failed ||
           std::none_of(situation.repaired.begin(), situation.repaired.end(), mends);
}

Faults unmended(const harness::Harness& harness, const Explanation& explanation, const Situation& situation) {
    if (explanation.repair_failed || situation.repaired.empty()) return explanation.faults;
    Faults left;
    for (const Fault& fault : explanation.faults) {
        if (is_unmended(harness, explanation, fault, situation)) left.push_back(fault);
    }
    return left;
}

Faults remaining(const harness::Harness& harness, const Explanation& explanation,
                 const Situation& situation) {
    const Faults left = unmended(harness, explanation, situation);
    const bool quiet = explanation.reseat_cured && !left.empty() &&
                       left.front() == explanation.faults.front() &&
                       std::binary_search(situation.reseated.begin(), situation.reseated.end(),
                                          explanation.faults.front().part);
    if (!quiet) return left;
    Faults others;
    for (std::size_t i = 1; i < left.size(); ++i) others.push_back(left[i]);
    return others;
}

}  // namespace halfsplit::diagnosis
