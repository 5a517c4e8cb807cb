#include "plan/objective_step.hpp"

#include "halfsplit/plan/policy.hpp"

#include "plan/chances.hpp"
#include "plan/prospect.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::plan {

namespace {

// The problem under the cut belief.
Problem cut_off(const Problem& problem, double ignored, std::vector<bool>& kept) {
    const Outline outline(problem);
    const std::vector<double> by_kind = cut(outline.by_kind(prior_of(problem)), ignored);
    Problem result = problem;
    kept.assign(problem.hypotheses.size(), true);
    for (std::size_t h = 0; h < kept.size(); ++h) {
        if (by_kind[outline.kind_of[h]] > 0) continue;
        kept[h] = false;
        result.hypotheses[h].probability = 0;
    }
    return result;
}

int shown_by(const PolicyStep& step, const Hypothesis& own, std::size_t index, const Problem& problem) {
    if (step.step == Step::Test) return problem.tests[step.index].outcome[index];
    if (own.element != step.index) return 1;
    return own.then == cured ? 0 : 2;
}

OutcomeView view_of(const PolicyStep& step, const PolicyStep::Branch& branch, const Problem& problem,
                    const Policy& policy) {
    const std::vector<double> prior = prior_of(problem);
    OutcomeView view{branch.outcome, branch.chance, 0, std::vector<double>(prior.size())};
    double weight = 0;
    for (std::size_t h = 0; h < prior.size(); ++h) {
        const Hypothesis& own = problem.hypotheses[h];
        if (shown_by(step, own, h, problem) != branch.outcome) continue;
        const bool goes_on = step.step == Step::LayBare && branch.outcome == 2;
        view.posterior[goes_on ? own.then : h] += prior[h];
        weight += prior[h];
        view.expected_minutes_left += prior[h] * (policy.minutes[h] - step.minutes);
    }
    view.expected_minutes_left = std::max(0.0, view.expected_minutes_left / weight);
    view.posterior = normalised(std::move(view.posterior));
    return view;
}

bool better(const Choice& one, const Choice& other, const Objective& objective) {
    const auto excess = [&](const Choice& choice) {
        return std::max(0.0, choice.worst_minutes - objective.worst_at_most);
    };
    if (std::abs(excess(one) - excess(other)) > tie_minutes) return excess(one) < excess(other);
    if (objective.least_worst && std::abs(one.worst_minutes - other.worst_minutes) > tie_minutes)
        return one.worst_minutes < other.worst_minutes;
    return one.expected_minutes < other.expected_minutes - tie_minutes;
}

}  // namespace

void put_first(Recommendation& result, const Problem& problem, const OneStepOptions& options) {
    std::vector<bool> kept;
    const Problem under_cut = cut_off(problem, options.ignored, kept);
    const Policy plan = policy(under_cut, options.limits, options.objective);
    result.truthful = plan.solution;
    result.worst_lower_bound = plan.worst_lower_bound;
    if (plan.steps.empty()) return;
    const PolicyStep& first = plan.steps.front();
    Option option{plan.solution.best, {}, plan.minutes};
    for (const PolicyStep::Branch& branch : first.branches)
        if (branch.chance > 0) option.outcomes.push_back(view_of(first, branch, under_cut, plan));
    for (std::size_t h = 0; h < kept.size(); ++h)
        if (!kept[h]) option.minutes[h] = -1;
    const auto same = std::find_if(result.options.begin(), result.options.end(), [&](const Option& other) {
        return same_step(other.choice, option.choice);
    });
    if (same != result.options.end()) result.options.erase(same);
    result.options.insert(result.options.begin(), std::move(option));
    if (plan.solution.proven) return;
    // Another search may have come upon a better one.
    const auto best = std::min_element(
        result.options.begin(), result.options.end(),
        [&](const Option& a, const Option& b) { return better(a.choice, b.choice, options.objective); });
    std::rotate(result.options.begin(), best, best + 1);
}

}  // namespace halfsplit::plan
