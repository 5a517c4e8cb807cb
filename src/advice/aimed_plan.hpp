// The plan of a posed problem for what the electrician wants of it.
#pragma once

#include "halfsplit/advice/aim.hpp"
#include "halfsplit/advice/survey.hpp"
#include "halfsplit/plan/one_step.hpp"
#include "halfsplit/plan/policy.hpp"

#include "advice/problem.hpp"

#include <vector>

namespace halfsplit::advice {

// No options where there is nothing to find.
plan::Recommendation plan_for(const Posed& posed, const Aim& aim);

// Its options without giving up: that nothing is wrong cannot be laid bare and seen.
std::vector<const plan::Option*> real_steps(const plan::Recommendation& plan, const Posed& posed);

// Of that step and all after it.
Quote quote_of(const plan::Recommendation& plan, const plan::Option& first, const Posed& posed);

// The whole plan for a fault that can be found, planned anew after each outcome. No steps where there is
// none.
struct WholePlan {
    plan::Problem problem;  // hypotheses and tests numbered as in the posed one
    plan::Policy policy;
    double share = 0;  // of all faults, those that it is about
};
WholePlan whole_plan(const Posed& posed, const Aim& aim, double least_chance);
Quote quote_of(const WholePlan& plan);

// By part, the mean minutes of hunts that end there; below 0 where the plan does not say.
std::vector<double> minutes_by_part(const plan::Option& first, const Posed& posed, std::size_t parts);

}  // namespace halfsplit::advice
