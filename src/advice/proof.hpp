// What the proof of a repair proves.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"

namespace halfsplit::advice {

// H to L counts where it is known what it should be.
Proof proof_of(const job::Verified& verified, const harness::Harness& harness, harness::Index network);

}  // namespace halfsplit::advice
