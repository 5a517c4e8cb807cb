// Where the technician stands in a job's state, and what is off, in the terms of the cost model.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/state.hpp"

namespace halfsplit::advice {

// Covers that the harness does not know, or that stand before nothing of the network, are left out.
access::Standing standing_of(const harness::Harness& harness, harness::Index network,
                             const access::Costs& costs, const job::State& state);

}  // namespace halfsplit::advice
