// Where a hand had to go for a record of a job, in the terms of the cost model.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"

#include <optional>

namespace halfsplit::advice {

// Of a reading, a distance, a look, a repair, a part unplugged or plugged in, a clip moved. Empty for other
// events, and where the harness does not know what was touched.
std::optional<access::Site> site_of(const harness::Harness& harness, const access::Costs& costs,
                                    const job::Event& event, harness::Index clip);

}  // namespace halfsplit::advice
