#include "halfsplit/plan/policy.hpp"

#include "plan/both_classes.hpp"
#include "plan/policy_writer.hpp"
#include "plan/ranking.hpp"
#include "plan/study.hpp"
#include "plan/under_cap.hpp"

#include <algorithm>
#include <utility>

namespace halfsplit::plan {

using access::Standing;

namespace {

// Where the search ran out, the ranking may know a better beginning than the rule of thumb.
Move first_move(Study& study, const Solution& solution) {
    const Choice& best = solution.best;
    const SetId all = study.ground.sets.all();
    const bool single_look = best.step == Step::LayBare && study.desk.may_look(all);
    if (solution.proven || (best.step != Step::Test && !single_look))
        return study.desk.move(all, study.problem.start);
    const auto number = [&](const auto& list) {
        const auto own =
            std::find_if(list.begin(), list.end(), [&](const auto& one) { return one.index == best.index; });
        return static_cast<std::uint32_t>(own - list.begin());
    };
    return {best.step, single_look ? number(study.ground.model.bare) : number(study.ground.model.tests), {}};
}

Policy least_expected(const Problem& problem, const Limits& limits) {
    Study study(problem, limits);
    Solution solution = rank_all(study.desk, study.ground.sets.all(), problem.start, 0);
    solution.looks = limits.looks;
    bool begun = false;
    PolicyWriter writer(
        problem, study.outline, study.ground, [&](SetId set, const Standing& standing, double) {
            return std::exchange(begun, true) ? study.desk.move(set, standing) : first_move(study, solution);
        });
    Policy policy = writer.write();
    policy.solution = solution;
    return policy;
}

}  // namespace

Policy policy(const Problem& problem, const Limits& limits, const Objective& objective) {
    require_sound(problem);
    if (!objective.is_expected_alone()) {
        Study study(problem, limits);
        return under_cap(study, objective);
    }
    Policy last = least_expected(problem, {limits.states, Looks::Last});
    if (limits.looks == Looks::Last) return last;
    Policy any_time = least_expected(problem, for_looks_at_any_time(limits));
    if (any_time.solution.proven ||
        any_time.solution.best.expected_minutes < last.solution.best.expected_minutes)
        return any_time;
    take_bound_of_any_time(last.solution, any_time.solution.lower_bound);
    return last;
}

double minutes_within(const Policy& policy, const Problem& problem, double probability) {
    return minutes_within(policy.minutes, problem, probability);
}

double minutes_within(const std::vector<double>& minutes, const Problem& problem, double probability) {
    std::vector<std::pair<double, double>> spread;  // minutes and their chance
    double total = 0;
    for (std::size_t h = 0; h < minutes.size(); ++h) {
        const double chance = problem.hypotheses[h].probability;
        total += chance;
        if (chance > 0 && minutes[h] >= 0) spread.emplace_back(minutes[h], chance);
    }
    std::sort(spread.begin(), spread.end());
    double sum = 0;
    for (const auto& [longest, chance] : spread) {
        sum += chance / total;
        if (sum >= probability - 1e-12) return longest;
    }
    return spread.empty() ? 0 : spread.back().first;
}

}  // namespace halfsplit::plan
