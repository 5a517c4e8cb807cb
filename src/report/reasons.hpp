// Why a step and not another: what it costs, what its outcomes leave, what else could be done.
#pragma once

#include "halfsplit/advice/recommendation.hpp"

#include "report/step_sheet.hpp"

#include <cstddef>

namespace halfsplit::report {

void add_costs(const advice::Recommendation& advice, StepSheet& sheet);
// The likeliest so many, in order of what the meter shows; the chance of the others together.
void add_outcomes(const advice::Recommendation& advice, std::size_t enough, StepSheet& sheet);
void add_alternatives(const advice::Recommendation& advice, StepSheet& sheet);
void add_turning_points(const advice::Recommendation& advice, std::size_t enough, StepSheet& sheet);

}  // namespace halfsplit::report
