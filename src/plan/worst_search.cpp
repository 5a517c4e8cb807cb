#include "plan/worst_search.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::plan {

namespace {

// Worst cases closer than this are equal.
constexpr double equal_worst = 1e-9;

}  // namespace

WorstSearch::WorstSearch(Desk& desk, std::uint64_t most_expansions)
    : desk_(desk), most_expansions_(most_expansions) {
    for (const PlannedTest& test : desk.model().tests) {
        least_test_ = std::min(least_test_, test.site.minutes);
        most_outcomes_ = std::max(most_outcomes_, test.outcomes);
    }
}

StateId WorstSearch::open(const Whereabout& at) {
    const StateId id = desk_.state(at.set, at.standing);
    if (id >= states_.size()) states_.resize(id + 1);
    if (states_[id].lower >= 0) return id;
    State& fresh = states_[id];
    fresh.lower = bound(at);
    const Shape& shape = desk_.sets().shape(at.set);
    if ((shape.elements == 1 && !shape.goes_on) || (desk_.model().isolating && shape.tests.count == 0)) {
        fresh.lower = fresh.worst = desk_.value(at.set, at.standing).worst;
        fresh.move = desk_.move(at.set, at.standing);
    }
    return id;
}

// Each member has to be reached; and some member is only found after as many steps as it takes to tell all of
// them apart, each a test or a needless look.
double WorstSearch::bound(const Whereabout& at) const {
    const Model& model = desk_.model();
    if (model.isolating) return 0;
    double dearest = 0, cheapest = infinity, least_step = least_test_;
    std::size_t elements = 0;
    for (const Member& member : desk_.members(at.set)) {
        const BareSite& look = model.bare[member.element];
        const double alone = model.way(at.standing.place, look.site.place) +
                             model.workshop.open(look.site.need, at.standing.off) + look.site.minutes;
        dearest = std::max(dearest, alone);
        cheapest = std::min(cheapest, alone);
        least_step = std::min(least_step, look.site.minutes);
        ++elements;
    }
    const double steps =
        std::ceil(std::log(static_cast<double>(elements)) / std::log(static_cast<double>(most_outcomes_)) -
                  equal_worst);
    return std::max(dearest, cheapest + steps * least_step);
}

double WorstSearch::lower(const Whereabout& at) {
    return states_[open(at)].lower;
}

bool WorstSearch::solved(const Whereabout& at) {
    const State& state = states_[open(at)];
    return state.worst <= state.lower + equal_worst;
}

Move WorstSearch::move(const Whereabout& at) {
    return states_[open(at)].move;
}

void WorstSearch::settle(const Whereabout& at, double budget) {
    const StateId id = open(at);
    if (solved(at) || states_[id].lower >= budget || exhausted()) return;
    expand(at, id, budget);
}

WorstStep WorstSearch::step_of(const Whereabout& at, const Beginning& beginning) {
    const Model& model = desk_.model();
    WorstStep step;
    step.weighted = beginning.now;
    step.minutes = beginning.now / desk_.weight(at.set);
    if (beginning.lays_group_bare()) {
        const Order order = desk_.order(at.set, at.standing);
        step.move = {Step::LayBare, 0, order.elements};
        step.group_worst = order.worst;
        step.group_minutes = order.minutes;
        step.lower = order.worst;
        return step;
    }
    const access::Site& site =
        beginning.lay_bare ? model.bare[beginning.element].site : model.tests[beginning.test].site;
    step.move = beginning.lay_bare ? Move{Step::LayBare, beginning.element, {}}
                                   : Move{Step::Test, beginning.test, {}};
    const access::Standing then{site.place, at.standing.off | site.need};
    double worst = 0;
    for (const SetId left : beginning.left) {
        step.next.push_back({left, then});
        worst = std::max(worst, lower(step.next.back()));
    }
    step.lower = step.minutes + worst;
    return step;
}

std::vector<WorstStep> WorstSearch::steps(const Whereabout& at) {
    std::vector<WorstStep> result;
    for (const Beginning& beginning : desk_.single_steps(at.set, at.standing))
        result.push_back(step_of(at, beginning));
    std::stable_sort(result.begin(), result.end(),
                     [](const WorstStep& a, const WorstStep& b) { return a.lower < b.lower; });
    return result;
}

// At most the worst case that begins so; itself where it stays below the budget.
double WorstSearch::try_step(const WorstStep& step, double budget) {
    if (step.next.empty()) return step.lower;
    std::vector<Whereabout> next = step.next;
    std::stable_sort(next.begin(), next.end(),
                     [&](const Whereabout& a, const Whereabout& b) { return lower(a) > lower(b); });
    double worst = step.lower;
    for (const Whereabout& one : next) {
        if (worst >= budget) break;
        settle(one, budget - step.minutes);
        worst = std::max(worst, step.minutes + lower(one));
    }
    return worst;
}

void WorstSearch::expand(const Whereabout& at, StateId id, double budget) {
    ++expansions_;
    double best = infinity, others = infinity;
    Move move;
    for (const WorstStep& step : steps(at)) {
        const double enough = std::min(best, budget);
        if (step.lower >= enough - equal_worst) {
            others = std::min(others, step.lower);
            break;
        }
        const double worst = try_step(step, enough);
        const bool exact = std::all_of(step.next.begin(), step.next.end(),
                                       [&](const Whereabout& one) { return solved(one); });
        if (exact && worst < best) {
            best = worst;
            move = step.move;
        } else if (!exact) {
            others = std::min(others, worst);
        }
    }
    State& state = states_[id];
    if (best < state.worst) {
        state.worst = best;
        state.move = std::move(move);
    }
    state.lower = std::max(state.lower, std::min(best, others));
}

double WorstSearch::follow(const Whereabout& at) {
    const StateId id = open(at);
    if (solved(at)) return states_[id].worst;
    if (states_[id].followed >= 0) return states_[id].followed;
    const WorstStep step = steps(at).front();
    double worst = step.next.empty() ? step.group_worst : step.minutes;
    for (const Whereabout& one : step.next) worst = std::max(worst, step.minutes + follow(one));
    states_[id].followed = worst;
    states_[id].followed_move = step.move;
    return worst;
}

Move WorstSearch::followed_move(const Whereabout& at) {
    follow(at);
    const State& state = states_[open(at)];
    return solved(at) ? state.move : state.followed_move;
}

}  // namespace halfsplit::plan
