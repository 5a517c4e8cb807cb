#include "halfsplit/plan/exact.hpp"

#include "plan/both_classes.hpp"
#include "plan/ranking.hpp"

#include <algorithm>

namespace halfsplit::plan {

namespace {

Solution solve_where_looks_come_last(Ground& ground, const Problem& problem, const Limits& limits,
                                     std::size_t alternatives) {
    Desk desk(ground, {limits.states, Looks::Last});
    Solution solution = rank_all(desk, ground.sets.all(), problem.start, alternatives);
    solution.looks = Looks::Last;
    return solution;
}

}  // namespace

std::string_view word(Looks looks) {
    return looks == Looks::AnyTime ? "looks-any-time" : "looks-last";
}

Limits for_looks_at_any_time(const Limits& limits) {
    return {limits.states_any_time, Looks::AnyTime, limits.states_any_time};
}

void take_bound_of_any_time(Solution& last, double bound) {
    last.lower_bound = std::min(last.best.expected_minutes, bound);
    if (bound < last.best.expected_minutes - tie_minutes) return;
    last.looks = Looks::AnyTime;
    last.proven = true;
}

Solution solve(const Problem& problem, const Limits& limits, std::size_t alternatives) {
    require_sound(problem);
    const Outline outline(problem);
    Ground ground(outline, outline.prior());
    Solution last = solve_where_looks_come_last(ground, problem, limits, alternatives);
    if (limits.looks == Looks::Last) return last;
    if (problem.bare.empty()) {  // both classes are one
        last.looks = Looks::AnyTime;
        return last;
    }
    // Its best plan is one of the wider class as well: all that is asked there is whether another one is
    // better.
    Desk desk(ground, for_looks_at_any_time(limits));
    const SetId all = ground.sets.all();
    desk.settle(all, problem.start, last.best.expected_minutes);
    Solution any_time = rank_all(desk, all, problem.start, alternatives);
    any_time.looks = Looks::AnyTime;
    any_time.states += last.states;
    if (any_time.proven || any_time.best.expected_minutes < last.best.expected_minutes - tie_minutes)
        return any_time;
    take_bound_of_any_time(last, desk.lower_bound_of_all(problem.start));
    last.states = any_time.states;
    return last;
}

}  // namespace halfsplit::plan
