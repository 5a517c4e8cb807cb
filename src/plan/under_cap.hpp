// The plan for an objective beside the expected minutes: least worst case, or a cap on it.
#pragma once

#include "halfsplit/plan/objective.hpp"
#include "halfsplit/plan/policy.hpp"

#include "plan/study.hpp"

namespace halfsplit::plan {

// As plan::policy says.
Policy under_cap(Study& study, const Objective& objective);

}  // namespace halfsplit::plan
