// Whether a job is whole: how well the fault is established, and what is left to do.
#pragma once

#include "halfsplit/advice/review.hpp"

#include <string>
#include <vector>

namespace halfsplit::advice {

FaultProof fault_proof(const Review& review);

// In the order in which it is done.
std::vector<std::string> to_do(const Review& review);

}  // namespace halfsplit::advice
