// An arrangement in the terms of a recommendation.
#pragma once

#include "halfsplit/advice/recommendation.hpp"

#include "advice/arrangement.hpp"

#include <string>

namespace halfsplit::advice {

// The step, its spot and its own minutes; the way there is the caller's.
Preparation preparation(const harness::Harness& harness, const Arrangement& arrangement);

// "unplug T1", "plug X4 in", "clip to X4.b:1/2"; empty where nothing has to be done.
std::string in_words(const Preparation& first);

}  // namespace halfsplit::advice
