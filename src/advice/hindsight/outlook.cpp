#include "advice/hindsight/outlook.hpp"

#include "halfsplit/base/ranking.hpp"

#include "advice/describe.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace halfsplit::advice {

using diagnosis::Belief;
using harness::Harness;
using harness::Index;

namespace {

double entropy_bits(const std::vector<double>& shares) {
    double bits = 0;
    for (const double share : shares) {
        if (share > 0) bits -= share * std::log2(share);
    }
    return bits;
}

}  // namespace

std::vector<double> whereabouts(const Harness& harness, const Belief& belief) {
    std::vector<double> shares = diagnosis::by_part(belief, harness);
    shares.push_back(diagnosis::nothing_wrong(belief, harness));
    const double total = std::accumulate(shares.begin(), shares.end(), 0.0);
    if (total > 0) {
        for (double& share : shares) share /= total;
    }
    return shares;
}

Told told(const std::vector<double>& before, const std::vector<double>& after) {
    Told result{.bits = entropy_bits(before) - entropy_bits(after)};
    for (std::size_t i = 0; i < before.size(); ++i) result.moved += std::abs(before[i] - after[i]) / 2;
    return result;
}

Outlook outlook(const Harness& harness, const Belief& belief) {
    Outlook result{.bits = entropy_bits(whereabouts(harness, belief)),
                   .nothing_wrong = diagnosis::nothing_wrong(belief, harness),
                   .two_faults = belief.pairs};
    const std::vector<double> by_part = diagnosis::by_part(belief, harness);
    for (Index part = 0; part < by_part.size(); ++part) {
        if (by_part[part] < suspect_chance) continue;
        result.leading.push_back({harness.parts[part].id, harness.parts[part].name, by_part[part]});
    }
    result.suspects = result.leading.size();
    std::stable_sort(
        result.leading.begin(), result.leading.end(),
        [](const PartChance& a, const PartChance& b) { return likelier(a.probability, b.probability); });
    return result;
}

std::vector<SuspectView> suspect_views(const Harness& harness, const Belief& belief, std::size_t most) {
    std::vector<SuspectView> result;
    for (const diagnosis::Suspect& suspect : diagnosis::suspects(belief, harness)) {
        if (suspect.probability < suspect_chance || result.size() == most) break;
        const harness::Part& part = harness.parts[suspect.fault.part];
        result.push_back({part.id, part.name, diagnosis::name(harness, suspect.fault),
                          diagnosis::in_words(harness, suspect.fault), suspect.probability});
    }
    return result;
}

double ever_faulty(const Belief& belief, Index part) {
    double sum = 0;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        const auto& faults = belief.explanations[i].faults;
        const bool held = std::any_of(faults.begin(), faults.end(),
                                      [part](const diagnosis::Fault& fault) { return fault.part == part; });
        if (held) sum += belief.probability[i];
    }
    return sum;
}

}  // namespace halfsplit::advice
