// What the proof of a repair proves.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"

namespace halfsplit::advice {

// 54 to 69 ohm H to L at rest where the nominal value is 60 (common practice, no source), and in proportion
// elsewhere.
bool resistance_is_right(double h_to_l_ohm, const harness::Network& network);

Proof proof_of(const job::Verified& verified, const harness::Network& network);

}  // namespace halfsplit::advice
