// What would change the advice.
#pragma once

#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/plan/one_step.hpp"

#include "advice/problem.hpp"

#include <vector>

namespace halfsplit::advice {

// Parts whose chance alone, were it another one, would make `other` the better step, nearest first; the rest
// keep their chances to each other. By the plans of both as they are now (Option::minutes), readings taken as
// truthful; a plan may do better under other chances, so a turning point may come a little sooner. Empty
// where either has no minutes by hypothesis. `instead` is left empty.
std::vector<TurningPoint> turning_points(const harness::Harness& harness, const Posed& posed,
                                         const plan::Option& best, const plan::Option& other);

}  // namespace halfsplit::advice
