// Readings that disagree with the likeliest explanation, and the likeliest slip behind each.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/job/state.hpp"

#include <vector>

namespace halfsplit::advice {

// Cheapest re-check first.
std::vector<Doubt> doubts(const harness::Harness& harness, const diagnosis::Evidence& evidence,
                          const diagnosis::Belief& belief, const access::Costs& costs,
                          const access::Standing& standing, diagnosis::Predictor& predictor);

// Without those that were read again and fit, once something else was read: there is nothing left to check.
std::vector<Doubt> unsettled_doubts(const harness::Harness& harness, const diagnosis::Evidence& evidence,
                                    const diagnosis::Belief& belief, const access::Costs& costs,
                                    const access::Standing& standing, diagnosis::Predictor& predictor);

// The first record later than a doubted one that is the same reading, in the same state, and fits; 0: none.
job::Sequence reread_of(const diagnosis::Measured& doubted, const diagnosis::Evidence& evidence,
                        const diagnosis::Belief& belief);

}  // namespace halfsplit::advice
