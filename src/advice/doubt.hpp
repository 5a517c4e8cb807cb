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

}  // namespace halfsplit::advice
