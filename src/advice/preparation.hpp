// An arrangement in the terms of a recommendation.
#pragma once

#include "halfsplit/advice/recommendation.hpp"

#include "advice/arrangement.hpp"

#include <string>

namespace halfsplit::advice {

// The step, its spot and its own minutes; the way there is the caller's. Not for how things stand.
Preparation preparation(const harness::Harness& harness, const Arrangement& arrangement);

// "unplug T1", "plug X4 in", "clip to X4.b:1/2"; empty for how things stand.
std::string prepare_words(const harness::Harness& harness, const Arrangement& arrangement);

}  // namespace halfsplit::advice
