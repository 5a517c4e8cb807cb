#include "advice/aimed_plan.hpp"

#include "halfsplit/harness/harness.hpp"
#include "halfsplit/plan/policy.hpp"
#include "halfsplit/plan/replanned.hpp"

#include <algorithm>
#include <numeric>

namespace halfsplit::advice {

using harness::none;

namespace {

constexpr double ninety_percent = 0.9;

plan::Objective objective_of(const Aim& aim) {
    return {.least_worst = aim.least_worst, .worst_at_most = aim.worst_at_most};
}

bool is_sound(const Posed& posed, const plan::Hypothesis& hypothesis) {
    return posed.part_of_element[hypothesis.element] == none;
}

// About a fault that can be found.
plan::Problem without_sound(const Posed& posed, const Aim& aim) {
    plan::Problem problem = posed.problem;
    if (aim.isolate) problem.bare.clear();
    for (plan::Hypothesis& hypothesis : problem.hypotheses)
        if (is_sound(posed, hypothesis)) hypothesis.probability = 0;
    return problem;
}

double sum_of_probabilities(const plan::Problem& problem) {
    return std::accumulate(
        problem.hypotheses.begin(), problem.hypotheses.end(), 0.0,
        [](double sum, const plan::Hypothesis& hypothesis) { return sum + hypothesis.probability; });
}

// That nothing is wrong takes no minutes to be seen; worst cases are about a fault that is there.
plan::Problem problem_for(const Posed& posed, const Aim& aim) {
    if (!objective_of(aim).is_expected_alone()) {
        plan::Problem faulty = without_sound(posed, aim);
        if (sum_of_probabilities(faulty) > 0) return faulty;
    }
    plan::Problem problem = posed.problem;
    if (aim.isolate) problem.bare.clear();
    return problem;
}

}  // namespace

plan::Recommendation plan_for(const Posed& posed, const Aim& aim) {
    if (sum_of_probabilities(posed.problem) <= 0) return {};
    const plan::OneStepOptions options{.limits = planning_limits, .objective = objective_of(aim)};
    if (aim == Aim{}) return plan::one_step(posed.problem, options);
    return plan::one_step(problem_for(posed, aim), options);
}

std::vector<const plan::Option*> real_steps(const plan::Recommendation& plan, const Posed& posed) {
    std::vector<const plan::Option*> steps;
    for (const plan::Option& option : plan.options) {
        const bool gives_up =
            option.choice.step == plan::Step::LayBare && posed.part_of_element[option.choice.index] == none;
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

WholePlan whole_plan(const Posed& posed, const Aim& aim, double least_chance) {
    WholePlan whole{without_sound(posed, aim), {}, 0};
    const double found = sum_of_probabilities(whole.problem);
    if (found <= 0) return {};
    whole.share = found / (found + posed.given_up);
    whole.policy = plan::replanned(whole.problem, {.limits = planning_limits, .least_chance = least_chance},
                                   objective_of(aim));
    return whole;
}

Quote quote_of(const WholePlan& plan) {
    const plan::Solution& solution = plan.policy.solution;
    Quote quote;
    quote.expected_minutes = solution.best.expected_minutes;
    quote.ninety_minutes = plan::minutes_within(plan.policy, plan.problem, ninety_percent);
    quote.worst_minutes = solution.best.worst_minutes;
    quote.lower_bound_minutes = std::min(solution.lower_bound, quote.expected_minutes);
    quote.worst_lower_bound_minutes = plan.policy.worst_lower_bound;
    quote.proven = solution.proven;
    quote.plans = word(solution.looks);
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
