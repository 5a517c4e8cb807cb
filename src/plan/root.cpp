#include "plan/root.hpp"

#include <algorithm>
#include <tuple>

namespace halfsplit::plan {

using access::Standing;

namespace {

// Values closer than this many minutes are a tie.
constexpr double tie_minutes = 1e-9;
// How many choices get a value by rule of thumb when there was no time to settle them.
constexpr std::size_t estimated_choices = 6;

// Best first; of those that tie with the best left, the lowest test, then laying bare.
void order_choices(std::vector<RootChoice>& choices) {
    const auto minutes = [](const RootChoice& one) { return one.choice.expected_minutes; };
    const auto rank = [](const RootChoice& one) { return std::tuple(one.choice.step != Step::Test, one.choice.index); };
    for (auto first = choices.begin(); first != choices.end(); ++first) {
        const double least = minutes(*std::min_element(
            first, choices.end(), [&](const auto& a, const auto& b) { return minutes(a) < minutes(b); }));
        const auto next = std::min_element(first, choices.end(), [&](const auto& a, const auto& b) {
            const bool tie_a = minutes(a) <= least + tie_minutes, tie_b = minutes(b) <= least + tie_minutes;
            return tie_a != tie_b ? tie_a : rank(a) < rank(b);
        });
        std::rotate(first, next, next + 1);
    }
}

}  // namespace

Desk::Desk(const Outline& outline, const std::vector<double>& weight_of_kind, std::uint64_t most_expansions)
    : model_(outline, weight_of_kind), sets_(model_), search_(model_, sets_, most_expansions) {}

double Desk::quick_bound(SetId set, const Standing& standing) {
    return search_.lower(search_.state(set, standing)) / sets_.facts(set).weight;
}

std::vector<Desk::Action> Desk::actions(SetId set, const Standing& standing) {
    std::vector<Action> result;
    const Stretch splits = sets_.splits(set);
    for (std::uint32_t s = 0; s < splits.count; ++s) {
        const Split split = sets_.work_out(set, splits.first + s);
        if (split.superfluous) continue;
        const PlannedTest& test = model_.tests[split.test];
        Action action{false, split.test, {}, search_.minutes_now(set, standing, test), 0, false};
        for (std::uint32_t c = 0; c < split.children.count; ++c)
            action.next.push_back(search_.after(standing, test, sets_.child(split.children.first + c)));
        settle(action, 0);
        result.push_back(std::move(action));
    }
    if (search_.may_lay_bare(set)) {
        const Order order = order_to_lay_bare(model_, search_.members(set), standing);
        result.push_back({true, 0, {}, 0, order.least, true});
    }
    return result;
}

// Brings `lower` up to date after trying to show that the action comes to the budget or more.
void Desk::settle(Action& action, double budget) {
    double total = action.now;
    for (const StateId next : action.next) total += search_.lower(next);
    action.settled = true;
    for (const StateId next : action.next) {
        const double before = search_.lower(next);
        if (total < budget) search_.settle(next, budget - (total - before));
        total += search_.lower(next) - before;
        action.settled = action.settled && search_.solved(next);
    }
    action.lower = total;
}

// Settles the cheapest-looking actions until no other can be among the `wanted` best, or tie with them.
void Desk::settle_best(std::vector<Action>& actions, std::size_t wanted, double tie) {
    while (!search_.exhausted()) {
        std::vector<double> known;
        Action* next = nullptr;
        for (Action& action : actions) {
            if (action.settled) known.push_back(action.lower);
            else if (next == nullptr || action.lower < next->lower) next = &action;
        }
        if (next == nullptr) return;
        double budget = Search::infinity;
        if (known.size() >= wanted) {
            std::nth_element(known.begin(), known.begin() + static_cast<std::ptrdiff_t>(wanted - 1), known.end());
            budget = known[wanted - 1] + tie;
        }
        if (next->lower >= budget) return;
        settle(*next, budget);
    }
}

Plan Desk::best_known(SetId set, const Standing& standing, const Action& action) {
    if (action.lay_bare) {
        const Order order = order_to_lay_bare(model_, search_.members(set), standing);
        return {order.minutes, order.worst};
    }
    RulePlan rule(model_, sets_, search_, Rule::InformationPerMinute);
    const PlannedTest& test = model_.tests[action.test];
    const Standing then{test.site.place, standing.off | test.site.need};
    Plan whole{action.now, 0};
    const std::vector<SetId> children = sets_.after(set, test);
    for (std::size_t c = 0; c < children.size(); ++c) {
        const Plan rest = search_.solved(action.next[c]) ? search_.plan(action.next[c]) : rule.follow(children[c], then);
        whole.minutes += rest.minutes;
        whole.worst = std::max(whole.worst, rest.worst);
    }
    whole.worst += model_.workshop.reach(test.site, standing.place, standing.off);
    return whole;
}

Choice Desk::as_choice(SetId set, const Standing& standing, const Action& action, const Plan& plan) const {
    const double weight = sets_.facts(set).weight;
    if (!action.lay_bare)
        return {Step::Test, model_.tests[action.test].index, action.now / weight, plan.minutes / weight, plan.worst};
    const Order order = order_to_lay_bare(model_, search_.members(set), standing);
    const BareSite& first = model_.bare[order.elements.front()];
    return {Step::LayBare, first.index, model_.workshop.reach(first.site, standing.place, standing.off),
            plan.minutes / weight, plan.worst};
}

// All that are settled; where the search ran out, also those that look cheapest, and what the rule of thumb would do.
std::vector<const Desk::Action*> Desk::worth_showing(SetId set, const Standing& standing,
                                                     const std::vector<Action>& actions) {
    std::vector<const Action*> shown, open;
    for (const Action& action : actions) (action.settled ? shown : open).push_back(&action);
    if (!search_.exhausted()) return shown;
    std::stable_sort(open.begin(), open.end(), [](const Action* a, const Action* b) { return a->lower < b->lower; });
    const std::uint32_t picked =
        RulePlan(model_, sets_, search_, Rule::InformationPerMinute).pick(set, standing);
    for (std::size_t i = 0; i < open.size(); ++i)
        if (i < estimated_choices || open[i]->test == picked) shown.push_back(open[i]);
    return shown;
}

Ranking Desk::rank(SetId set, const Standing& standing, std::size_t alternatives) {
    const StateId root = search_.state(set, standing);
    const double weight = sets_.facts(set).weight;
    search_.settle(root, Search::infinity);
    std::vector<Action> all = actions(set, standing);
    settle_best(all, alternatives + 1, tie_minutes * weight);
    Ranking ranking;
    ranking.lower_bound = search_.lower(root) / weight;
    for (const Action* action : worth_showing(set, standing, all)) {
        const Plan plan = best_known(set, standing, *action);
        const bool valued = action->settled && plan.minutes <= action->lower + tie_minutes * weight;
        ranking.choices.push_back({as_choice(set, standing, *action, plan), valued});
    }
    order_choices(ranking.choices);
    if (ranking.choices.empty()) {
        ranking.proven = true;
        return ranking;
    }
    const double best = ranking.choices.front().choice.expected_minutes;
    ranking.proven = search_.solved(root) && best <= ranking.lower_bound + tie_minutes;
    ranking.lower_bound = ranking.proven ? best : std::min(best, ranking.lower_bound);
    return ranking;
}

Plan Desk::value(SetId set, const Standing& standing) {
    const StateId root = search_.state(set, standing);
    search_.settle(root, Search::infinity);
    if (search_.solved(root)) {
        const Plan plan = search_.plan(root);
        return {plan.minutes / sets_.facts(set).weight, plan.worst};
    }
    const Choice best = rank(set, standing, 0).choices.front().choice;
    return {best.expected_minutes, best.worst_minutes};
}

Choice Desk::follow(SetId set, const Standing& standing, Rule rule) {
    RulePlan plan(model_, sets_, search_, rule);
    const std::uint32_t picked = plan.pick(set, standing);
    const Plan whole = plan.follow(set, standing);
    if (picked == IndexTable::none && model_.isolating) return {};
    Action action{picked == IndexTable::none, 0, {}, 0, 0, true};
    if (!action.lay_bare) {
        action.test = picked;
        action.now = search_.minutes_now(set, standing, model_.tests[picked]);
    }
    return as_choice(set, standing, action, whole);
}

Solution as_solution(const Ranking& ranking, const Desk& desk) {
    Solution solution;
    if (!ranking.choices.empty()) solution.best = ranking.choices.front().choice;
    for (const RootChoice& one : ranking.choices)
        if (one.valued) solution.ranked.push_back(one.choice);
    solution.lower_bound = ranking.lower_bound;
    solution.proven = ranking.proven;
    solution.states = desk.expansions();
    return solution;
}

}  // namespace halfsplit::plan
