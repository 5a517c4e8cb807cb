// An arrangement in the terms of a recommendation.
#pragma once

#include "halfsplit/advice/recommendation.hpp"

#include "advice/arrangement.hpp"

#include <optional>
#include <string>

namespace halfsplit::advice {

// The step, its spot and its own minutes; the way there is the caller's. Not for ArrangingStep::None.
Preparation preparation(const harness::Harness& harness, const Arrangement& arrangement);

// Switching the battery, where the arrangement wants the bus otherwise than it is.
std::optional<Preparation> switching(const harness::Harness& harness, electrics::Power now,
                                     electrics::Power then);

// "unplug T1", "plug X4 in", "clip to X4.b:1/2", "battery on, bus awake", "battery off".
std::string in_words(const Preparation& first);

}  // namespace halfsplit::advice
