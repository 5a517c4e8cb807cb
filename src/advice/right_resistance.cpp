#include "halfsplit/advice/right_resistance.hpp"

#include "halfsplit/harness/variants.hpp"

#include "harness/bus_rules.hpp"

#include <algorithm>
#include <limits>
#include <vector>

namespace halfsplit::advice {

using harness::Attachment;
using harness::Harness;
using harness::Index;
using harness::Part;
using harness::PartKind;

namespace {

constexpr double least_of_nominal = 0.9, most_of_nominal = 1.15;
constexpr double least_module_ohm = 10000, most_module_ohm = 100000;

// What joins H and L on one variant of the vehicle.
struct Joined {
    double siemens = 0;  // of the terminators
    std::size_t modules = 0;
};

Joined joined(const Harness& harness, Index network, const std::vector<char>& present) {
    Joined result;
    for (Index index = 0; index < harness.parts.size(); ++index) {
        if (present[index] == 0) continue;
        const Part& part = harness.parts[index];
        if (part.kind == PartKind::Terminator && part.network == network) result.siemens += 1 / part.ohm;
        if (part.kind != PartKind::Module) continue;
        for (const Attachment& attachment : part.attachments) {
            if (attachment.network != network) continue;
            ++result.modules;
            const bool terminated = attachment.terminator == Attachment::Terminator::BuiltIn ||
                                    attachment.terminator == Attachment::Terminator::SwitchedOn;
            if (terminated) result.siemens += 1 / attachment.terminator_ohm;
        }
    }
    return result;
}

RightResistance right_for(const Joined& bus) {
    if (bus.siemens > 0) {
        const double nominal = 1 / bus.siemens;
        return {least_of_nominal * nominal, most_of_nominal * nominal, nominal, false};
    }
    if (bus.modules == 0)
        return {least_module_ohm, std::numeric_limits<double>::infinity(), std::nullopt, true};
    const auto count = static_cast<double>(bus.modules);
    return {least_module_ohm / count, most_module_ohm / count, std::nullopt, true};
}

RightResistance either(const RightResistance& a, const RightResistance& b) {
    return {std::min(a.low_ohm, b.low_ohm), std::max(a.high_ohm, b.high_ohm),
            a.nominal_ohm == b.nominal_ohm ? a.nominal_ohm : std::nullopt, a.by_modules && b.by_modules};
}

}  // namespace

bool RightResistance::accepts(double h_to_l_ohm) const {
    constexpr double last_digits = 1e-9;
    return h_to_l_ohm >= low_ohm * (1 - last_digits) && h_to_l_ohm <= high_ohm * (1 + last_digits);
}

std::optional<RightResistance> right_resistance(const Harness& harness, Index network) {
    if (harness.networks[network].single_line) return std::nullopt;
    std::optional<RightResistance> right;
    for (const harness::Variant& variant : variants(harness)) {
        const RightResistance one = right_for(joined(harness, network, variant.present));
        right = right ? either(*right, one) : one;
    }
    if (right->by_modules && !wants_terminators(harness.networks[network])) return std::nullopt;
    return right;
}

}  // namespace halfsplit::advice
