// What a job knows of its bus, for a picture.
#pragma once

#include "halfsplit/drawing/drawing.hpp"
#include "halfsplit/job/state.hpp"

namespace halfsplit::cli {

// Suspects are parts with a chance of 1 % or more, none once the repair is proven; good is what readings have
// taken out of suspicion. One inference; plans nothing.
drawing::Marks job_marks(const harness::Harness& harness, harness::Index network, const job::State& state);

}  // namespace halfsplit::cli
