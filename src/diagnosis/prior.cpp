#include "halfsplit/diagnosis/prior.hpp"

#include <map>

namespace halfsplit::diagnosis {

using harness::Assumptions;
using harness::Harness;
using harness::Index;
using harness::Part;
using harness::PartKind;

namespace {

enum class Class { Open, Joint, Short };

Class class_of(Mode mode) {
    switch (mode) {
        case Mode::BadJoint:
            return Class::Joint;
        case Mode::ShortLines:
        case Mode::ShortGround:
        case Mode::ShortSupply:
        case Mode::ExtraTerminator:
            return Class::Short;
        default:
            return Class::Open;
    }
}

double share_of(const Assumptions& assumptions, Class which) {
    switch (which) {
        case Class::Open:
            return assumptions.open_share;
        case Class::Joint:
            return assumptions.joint_share;
        case Class::Short:
            return assumptions.short_share;
    }
    return 0;
}

double kind_weight(const Assumptions& assumptions, const Part& part) {
    switch (part.kind) {
        case PartKind::Connector:
            return assumptions.connector_weight;
        case PartKind::BridgePlug:
            return assumptions.plug_weight;
        case PartKind::Splice:
            return assumptions.splice_weight;
        case PartKind::Terminator:
            return assumptions.terminator_weight;
        case PartKind::Module:
            return assumptions.module_weight + assumptions.connector_weight;
        case PartKind::Socket:
            return assumptions.module_weight;
        case PartKind::Run:
            return assumptions.wire_weight_per_m * part.length_m;
    }
    return 0;
}

}  // namespace

double part_weight(const Harness& harness, Index index) {
    const Part& part = harness.parts[index];
    const Assumptions& assumptions = harness.assumptions;
    if (part.weight) return *part.weight;
    double weight = kind_weight(assumptions, part);
    if (part.marks.flexing) weight *= assumptions.flexing_factor;
    if (part.marks.wet) weight *= assumptions.wet_factor;
    if (part.marks.worked_on) weight *= assumptions.worked_on_factor;
    if (part.marks.add_on) weight *= assumptions.add_on_factor;
    if (part.marks.unverified) weight *= assumptions.unverified_factor;
    return weight;
}

std::vector<double> fault_weights(const Harness& harness, const std::vector<Fault>& faults) {
    // How many faults of each class a part has, and how the shares of its classes add up.
    std::map<std::pair<Index, Class>, double> count;
    for (const Fault& fault : faults) ++count[{fault.part, class_of(fault.mode)}];
    std::map<Index, double> shares;
    for (const auto& [key, number] : count) shares[key.first] += share_of(harness.assumptions, key.second);

    std::vector<double> weights;
    weights.reserve(faults.size());
    double total = 0;
    for (const Fault& fault : faults) {
        const Class which = class_of(fault.mode);
        const double share = share_of(harness.assumptions, which) / shares[fault.part];
        weights.push_back(part_weight(harness, fault.part) * share / count[{fault.part, which}]);
        total += weights.back();
    }
    for (double& weight : weights) weight /= total > 0 ? total : 1;
    return weights;
}

}  // namespace halfsplit::diagnosis
