#include "advice/aimed_plan.hpp"

#include "halfsplit/harness/harness.hpp"
#include "halfsplit/plan/policy.hpp"

#include <algorithm>

namespace halfsplit::advice {

using harness::none;

namespace {

constexpr double ninety_percent = 0.9;

plan::Objective objective_of(const Aim& aim) {
    return {.least_worst = aim.least_worst, .worst_at_most = aim.worst_at_most};
}

// That nothing is wrong takes no minutes to be seen; worst cases are about a fault that is there.
plan::Problem problem_for(const Posed& posed, const Aim& aim) {
    plan::Problem problem = posed.problem;
    if (aim.isolate) problem.bare.clear();
    const auto sound = [&](const plan::Hypothesis& hypothesis) {
        return posed.part_of_element[hypothesis.element] == none;
    };
    if (objective_of(aim).is_expected_alone() ||
        std::all_of(problem.hypotheses.begin(), problem.hypotheses.end(), sound))
        return problem;
    for (plan::Hypothesis& hypothesis : problem.hypotheses)
        if (sound(hypothesis)) hypothesis.probability = 0;
    return problem;
}

}  // namespace

plan::Recommendation plan_for(const Posed& posed, const Aim& aim) {
    const plan::OneStepOptions options{.limits = planning_limits, .objective = objective_of(aim)};
    if (aim == Aim{}) return plan::one_step(posed.problem, options);
    return plan::one_step(problem_for(posed, aim), options);
}

std::vector<const plan::Option*> real_steps(const plan::Recommendation& plan, const Posed& posed) {
    std::vector<const plan::Option*> steps;
    for (const plan::Option& option : plan.options) {
        const bool gives_up = option.choice.step == plan::Step::LayBare && posed.no_look[option.choice.index];
        if (!gives_up) steps.push_back(&option);
    }
    return steps;
}

Quote quote_of(const plan::Recommendation& plan, const plan::Option& first, const Posed& posed) {
    Quote quote;
    quote.expected_minutes = first.choice.expected_minutes;
    quote.ninety_minutes = plan::minutes_within(first.minutes, posed.problem, ninety_percent);
    quote.worst_minutes = first.choice.worst_minutes;
    // A look before a test is outside the class that the bound is for, and may do better.
    quote.lower_bound_minutes = std::min(plan.lower_bound, quote.expected_minutes);
    quote.worst_lower_bound_minutes = plan.worst_lower_bound;
    quote.proven = plan.truthful.proven;
    quote.plans = word(plan.truthful.looks);
    return quote;
}

std::vector<double> minutes_by_part(const plan::Option& first, const Posed& posed, std::size_t parts) {
    std::vector<double> minutes(parts, 0), chance(parts, 0);
    for (std::size_t h = 0; h < first.minutes.size(); ++h) {
        const plan::Hypothesis& hypothesis = posed.problem.hypotheses[h];
        const plan::Hypothesis& last =
            hypothesis.then == plan::cured ? hypothesis : posed.problem.hypotheses[hypothesis.then];
        const harness::Index part = posed.part_of_element[last.element];
        if (part == none || first.minutes[h] < 0) continue;
        minutes[part] += hypothesis.probability * first.minutes[h];
        chance[part] += hypothesis.probability;
    }
    for (std::size_t part = 0; part < parts; ++part)
        minutes[part] = chance[part] > 0 ? minutes[part] / chance[part] : -1;
    return minutes;
}

}  // namespace halfsplit::advice
