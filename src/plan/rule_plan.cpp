#include "plan/rule_plan.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace halfsplit::plan {

using access::Standing;

namespace {

double size_of(std::span<const Word> bits) {
    int members = 0;
    for (const Word word : bits) members += std::popcount(word);
    return members;
}

}  // namespace

// Values that differ by rounding alone count as equal.
bool RulePlan::better(const Score& a, const Score& b) {
    const auto differ = [](double x, double y) {
        return std::abs(x - y) > 1e-9 * std::max(std::abs(x), std::abs(y));
    };
    if (differ(a.value, b.value)) return a.value < b.value;
    if (differ(a.minutes, b.minutes)) return a.minutes < b.minutes;
    return a.index < b.index;
}

RulePlan::Score RulePlan::score(SetId set, const Split& split, const Standing& standing) const {
    const PlannedTest& test = model_.tests[split.test];
    Score score{0, model_.workshop.reach(test.site, standing.place, standing.off), test.index};
    const double whole = weights_.of(set).weight;
    double bits = 0;
    for (std::uint32_t c = 0; c < split.children.count; ++c) {
        const SetId child = sets_.child(split.children.first + c);
        const double share =
            rule_ == Rule::HalfByCount ? size_of(sets_.bits(child)) : weights_.of(child).weight / whole;
        score.value += share * share;
        if (share > 0) bits -= share * std::log2(share);
    }
    if (rule_ == Rule::InformationPerMinute)
        score.value = score.minutes > 0 ? -bits / score.minutes : -Search::infinity;
    return score;
}

std::uint32_t RulePlan::pick(SetId set, const Standing& standing) const {
    std::uint32_t best = IndexTable::none;
    if (rule_ == Rule::Walk) {
        for (const std::uint32_t test : sets_.tests(set))
            if (best == IndexTable::none || model_.tests[test].index < model_.tests[best].index) best = test;
        return best;
    }
    if (sets_.tests(set).empty()) return best;
    const Stretch splits = sets_.splits(set);
    Score best_score;
    for (std::uint32_t s = 0; s < splits.count; ++s) {
        const Split split = sets_.work_out(set, splits.first + s);
        if (split.superfluous) continue;
        const Score own = score(set, split, standing);
        if (best != IndexTable::none && !better(own, best_score)) continue;
        best = split.test;
        best_score = own;
    }
    return best;
}

Plan RulePlan::follow(SetId set, const Standing& standing) {
    const std::uint32_t test = pick(set, standing);
    if (test != IndexTable::none) return follow_with(set, standing, test);
    if (model_.isolating) return {};
    const Order order = order_to_lay_bare(model_, weights_.members(set), standing);
    return {order.minutes, order.worst};
}

Plan RulePlan::follow_with(SetId set, const Standing& standing, std::uint32_t index) {
    const PlannedTest& test = model_.tests[index];
    const Standing then{test.site.place, standing.off | test.site.need};
    const double minutes = model_.workshop.reach(test.site, standing.place, standing.off);
    Plan whole{weights_.of(set).weight * minutes, 0};
    for (const SetId child : sets_.after(set, test)) {
        const Plan rest = follow(child, then);
        whole.minutes += rest.minutes;
        whole.worst = std::max(whole.worst, rest.worst);
    }
    whole.worst += minutes;
    return whole;
}

}  // namespace halfsplit::plan
