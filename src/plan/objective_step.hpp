// The first step where it is not the expected minutes alone that count.
#pragma once

#include "halfsplit/plan/one_step.hpp"

namespace halfsplit::plan {

inline bool same_step(const Choice& one, const Choice& other) {
    return one.step == other.step && one.index == other.index;
}

// Puts the first step of the plan that is best at `options.objective` before all others.
void put_first(Recommendation& result, const Problem& problem, const OneStepOptions& options);

}  // namespace halfsplit::plan
