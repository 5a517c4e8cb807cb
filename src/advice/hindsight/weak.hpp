// Readings that much was concluded from and that may be wrong for a reason of their own.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/state.hpp"

#include <vector>

namespace halfsplit::advice {

// Of the readings that count at the end, in order. What contradicts the rest of the log is not among them.
// `steps` tell what each moved when it was entered. Linear but for those that are weak.
std::vector<WeakEvidence> weak_evidence(const harness::Harness& harness, const job::State& end,
                                        const diagnosis::Evidence& evidence, const diagnosis::Belief& belief,
                                        const std::vector<ReviewStep>& steps);

}  // namespace halfsplit::advice
