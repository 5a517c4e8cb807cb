// Untruthful readings: one real step ahead, with the truthful optimum under the posterior as the value of
// what comes after it. A belief that never becomes certain is cut for planning to its likeliest hypotheses
// holding 1 - `ignored` of the probability; what is left out returns when a reading speaks for it.
#pragma once

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/objective.hpp"
#include "halfsplit/plan/problem.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::plan {

struct OneStepOptions {
    double ignored = 0.02;  // probability left out of planning; from 0 to below 1
    std::size_t candidates =
        6;  // root choices of the truthful optimum that are looked at one real step ahead
    // So many of the best are looked at a second real step ahead: where readings slip, those that are within
    // `second_step_margin` of the best (a share of its minutes), if there are two or more, and only where the
    // first step took no more than `second_step_within` expansions. 0: one step alone.
    std::size_t second_step = 2;
    double second_step_margin = 0.02;
    std::uint64_t second_step_within = 100;
    std::size_t kept = 3;  // an option that a bound shows to be beaten by this many others is left out
    Limits limits;         // of each belief that is planned under
    // Where it is not the expected minutes alone, the first option is the first step of plan::policy for it
    // under the cut belief, valued as if readings were truthful.
    Objective objective;
};

struct OutcomeView {
    int outcome = 0;
    double chance = 0;                 // under slips; above 0
    double expected_minutes_left = 0;  // truthful optimum under the posterior
    std::vector<double> posterior;     // by hypothesis of the problem, summing to 1; never cut
};

struct Option {
    Choice choice;  // expected_minutes counts slips
    // Of a test; for laying bare: 0 = it is the fault, 1 = it is not, 2 = it is, and mending it did not cure.
    std::vector<OutcomeView> outcomes;
    // By hypothesis of the problem, had readings been truthful: of this step and the best plan known after
    // it; below 0 where the belief was cut. Of the first three options alone, else empty.
    std::vector<double> minutes;
};

struct Recommendation {
    std::vector<Option> options;  // best first; empty when nothing is left to do
    Solution truthful;            // the optimum for the cut belief had readings been truthful
    // At most the least expected minutes for the whole belief, had readings been truthful: what was cut off
    // may cost nothing, the rest costs at least its own optimum.
    double lower_bound = 0;
    double worst_lower_bound = 0;  // as in Policy
};

// Looks at the best `candidates` choices of the truthful optimum and at laying bare the two likeliest
// elements, each with
//     minutes_now + sum over outcomes of chance(outcome) x truthful optimum under the posterior of that
//     outcome.
// For the best `second_step` of them the value after an outcome is then not that optimum but the same sum one
// step further on, so that a reading that may have slipped, and its re-check, are weighed twice in a row.
// They stand before the others, in the order of what that makes of them.
//
// The truthful optimum is the one of Looks::Last; where looks at any time make the truthful plan better, each
// choice is valued by both classes and is as good as the better of them makes it. Ties go as in `solve`.
// Deterministic. Throws as require_sound, and std::invalid_argument for options out of range.
Recommendation one_step(const Problem& problem, const OneStepOptions& options = {});

}  // namespace halfsplit::plan
