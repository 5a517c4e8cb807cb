#include "plan/rule_plan.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace halfsplit::plan {

using access::Standing;

namespace {

double common_members(std::span<const Word> bits, std::span<const Word> mask) {
    int members = 0;
    for (std::size_t w = 0; w < bits.size(); ++w) members += std::popcount(bits[w] & mask[w]);
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

double RulePlan::share(SetId set, std::span<const Word> mask) const {
    if (rule_ == Rule::HalfByCount) return common_members(sets_.bits(set), mask);
    return weights_.inside(set, mask) / weights_.of(set).weight;
}

RulePlan::Score RulePlan::score(SetId set, const PlannedTest& test, const Standing& standing) const {
    Score score{0, model_.workshop.reach(test.site, standing.place, standing.off), test.index};
    double bits = 0;
    for (std::uint32_t outcome = 0; outcome < test.outcomes; ++outcome) {
        const double own = share(set, model_.mask(test, outcome));
        score.value += own * own;
        if (own > 0) bits -= own * std::log2(own);
    }
    if (rule_ == Rule::InformationPerMinute)
        score.value = score.minutes > 0 ? -bits / score.minutes : -Search::infinity;
    return score;
}

std::uint32_t RulePlan::pick(SetId set, const Standing& standing) const {
    std::uint32_t best = IndexTable::none;
    if (sets_.shape(set).elements == 1) return best;
    if (rule_ == Rule::Walk) {
        for (const std::uint32_t test : sets_.tests(set))
            if (best == IndexTable::none || model_.tests[test].index < model_.tests[best].index) best = test;
        return best;
    }
    Score best_score;
    for (const std::uint32_t test : sets_.tests(set)) {
        const Score own = score(set, model_.tests[test], standing);
        if (best != IndexTable::none && !better(own, best_score)) continue;
        best = test;
        best_score = own;
    }
    return best;
}

bool RulePlan::may_stop(SetId set) const {
    return stopping_ == Stopping::WhereCheaper && !model_.isolating &&
           sets_.shape(set).elements <= exact_group;
}

bool RulePlan::lays_bare(SetId set, const Standing& standing) {
    const std::uint32_t test = pick(set, standing);
    if (test == IndexTable::none) return !model_.isolating;
    return may_stop(set) && lay_bare(set, standing).minutes <= follow_with(set, standing, test).minutes;
}

Plan RulePlan::follow(SetId set, const Standing& standing) {
    const std::uint32_t test = pick(set, standing);
    Plan reading{Search::infinity, 0};
    if (test != IndexTable::none) reading = follow_with(set, standing, test);
    if (test != IndexTable::none && !may_stop(set)) return reading;
    if (model_.isolating) return {};
    const Plan looking = lay_bare(set, standing);
    return looking.minutes <= reading.minutes ? looking : reading;
}

// In order, and on from each find that may not cure.
Plan RulePlan::lay_bare(SetId set, const Standing& standing) {
    const Order order = order_to_lay_bare(model_, weights_.members(set), standing);
    Plan whole{order.minutes, order.worst};
    if (!sets_.shape(set).goes_on) return whole;
    Standing now = standing;
    double spent = 0;
    for (const std::uint32_t element : order.elements) {
        const access::Site& site = model_.bare[element].site;
        spent += model_.workshop.reach(site, now.place, now.off);
        now = {site.place, now.off | site.need};
        const SetId next = sets_.going_on(set, element);
        if (next == IndexTable::none) continue;
        const Plan rest = follow(next, now);
        whole.minutes += rest.minutes;
        whole.worst = std::max(whole.worst, spent + rest.worst);
    }
    return whole;
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
