// Why no distance can be measured between two points as things stand, and what to unplug.
#pragma once

#include "halfsplit/electrics/stretch.hpp"
#include "halfsplit/harness/harness.hpp"

#include "input.hpp"

#include <string>

namespace halfsplit::job {

// Refuses with event-not-possible. `variant`: which the vehicle would be, in words; empty where nothing is
// open.
[[noreturn]] void refuse_obstacle(const Input& input, const harness::Harness& harness,
                                  const electrics::Obstacle& obstacle, harness::Index from, harness::Index to,
                                  const std::string& variant);

}  // namespace halfsplit::job
