// Untruthful readings: one real step ahead, with the truthful optimum under the posterior as the value of what comes
// after it. A belief that never becomes certain is cut for planning to its likeliest hypotheses holding 1 - `ignored`
// of the probability; what is left out returns when a reading speaks for it.
#pragma once

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/problem.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::plan {

struct OneStepOptions {
    double ignored = 0.02;         // probability left out of planning
    std::size_t candidates = 6;    // root choices of the truthful optimum that are looked at one real step ahead
    Limits limits;
};

struct OutcomeView {
    int outcome = 0;
    double chance = 0;                     // under slips
    double expected_minutes_left = 0;      // truthful optimum under the posterior
    std::vector<double> posterior;         // by hypothesis of the problem, summing to 1
};

struct Option {
    Choice choice;                         // expected_minutes counts slips
    std::vector<OutcomeView> outcomes;     // of a test; for laying bare: 0 = it is the fault, 1 = it is not
};

struct Recommendation {
    std::vector<Option> options;           // best first; empty when nothing is left to do
    Solution truthful;                     // the optimum had readings been truthful
};

Recommendation one_step(const Problem& problem, const OneStepOptions& options = {});

}  // namespace halfsplit::plan
