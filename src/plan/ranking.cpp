#include "plan/ranking.hpp"

#include "plan/search_reach.hpp"

#include <algorithm>
#include <tuple>

namespace halfsplit::plan {

using access::Standing;

namespace {

// How many choices get a value by rule of thumb when there was no time to settle them.
constexpr std::size_t estimated_choices = 6;

}  // namespace

Ranking::Ranking(Desk& desk, SetId set, const Standing& standing)
    : desk_(desk), set_(set), standing_(standing), weight_(desk.weight(set)) {
    desk_.settle(set_, standing_, Search::infinity);
    beginnings_ =
        out_of_reach(desk_.model()) ? desk_.leading(set_, standing_) : desk_.beginnings(set_, standing_);
}

std::tuple<bool, std::size_t> Ranking::order(const Beginning& beginning) const {
    if (!beginning.lay_bare) return {false, desk_.model().tests[beginning.test].index};
    return {true, beginning.element == IndexTable::none ? 0 : desk_.model().bare[beginning.element].index};
}

// Settles the cheapest-looking until nothing unsettled can be below, or tie with, the cheapest settled one.
Beginning* Ranking::cheapest_open(double budget) {
    for (;;) {
        Beginning* settled = nullptr;
        Beginning* open = nullptr;
        for (Beginning& one : beginnings_) {
            if (one.taken) continue;
            Beginning*& least = one.settled ? settled : open;
            if (least == nullptr || one.lower < least->lower) least = &one;
        }
        const double enough =
            std::min(budget, settled == nullptr ? Search::infinity : settled->lower + tie_minutes * weight_);
        if (open == nullptr || open->lower >= enough)
            return settled != nullptr && settled->lower < budget ? settled : nullptr;
        if (desk_.exhausted()) return nullptr;
        desk_.settle(*open, enough);
    }
}

std::optional<RankedChoice> Ranking::next(double budget) {
    Beginning* best = cheapest_open(budget * weight_);
    if (best == nullptr) return std::nullopt;
    for (Beginning& other : beginnings_)
        if (!other.taken && other.settled && other.lower <= best->lower + tie_minutes * weight_ &&
            order(other) < order(*best))
            best = &other;
    return show(*best);
}

RankedChoice Ranking::show(Beginning& beginning) {
    beginning.taken = true;
    const Plan plan = desk_.best_known(set_, standing_, beginning);
    const bool valued = beginning.settled && plan.minutes <= beginning.lower + tie_minutes * weight_;
    return {desk_.as_choice(set_, standing_, beginning, plan), valued};
}

std::vector<RankedChoice> Ranking::estimates() {
    std::vector<Beginning*> open;
    for (Beginning& one : beginnings_)
        if (!one.taken) open.push_back(&one);
    std::stable_sort(open.begin(), open.end(),
                     [](const Beginning* a, const Beginning* b) { return a->lower < b->lower; });
    const std::uint32_t picked = desk_.picked_by_rule(set_, standing_);
    std::vector<RankedChoice> shown;
    for (std::size_t i = 0; i < open.size(); ++i)
        if (i < estimated_choices || (!open[i]->lay_bare && open[i]->test == picked))
            shown.push_back(show(*open[i]));
    std::stable_sort(shown.begin(), shown.end(), [](const RankedChoice& a, const RankedChoice& b) {
        return a.choice.expected_minutes < b.choice.expected_minutes;
    });
    return shown;
}

Solution rank_all(Desk& desk, SetId set, const Standing& standing, std::size_t alternatives) {
    Ranking ranking(desk, set, standing);
    Solution solution;
    solution.proven = true;
    solution.states = desk.expansions();
    if (ranking.nothing_to_do()) return solution;
    std::vector<RankedChoice> choices;
    while (choices.size() <= alternatives) {
        const auto next = ranking.next(Search::infinity);
        if (!next) break;
        choices.push_back(*next);
    }
    if (desk.exhausted())
        for (const RankedChoice& estimate : ranking.estimates()) choices.push_back(estimate);
    const auto best =
        std::min_element(choices.begin(), choices.end(), [](const RankedChoice& a, const RankedChoice& b) {
            return a.choice.expected_minutes < b.choice.expected_minutes - tie_minutes;
        });
    std::rotate(choices.begin(), best, best + 1);
    solution.best = choices.front().choice;
    for (const RankedChoice& one : choices)
        if (one.valued) solution.ranked.push_back(one.choice);
    const double least = set == desk.sets().all() ? desk.lower_bound_of_all(standing) : ranking.lower_bound();
    solution.proven = choices.front().valued && solution.best.expected_minutes <= least + tie_minutes;
    solution.lower_bound =
        solution.proven ? solution.best.expected_minutes : std::min(least, solution.best.expected_minutes);
    solution.states = desk.expansions();
    return solution;
}

}  // namespace halfsplit::plan
