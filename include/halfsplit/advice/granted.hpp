// What an answer to a recommendation takes for granted.
#pragma once

#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/job/event.hpp"

#include <vector>

namespace halfsplit::advice {

// Whoever gives the value of the recommended reading has unplugged, plugged in or clipped what it said to do
// first, or connected the battery (that it is off is never taken for granted: it is asked for); whoever
// proves the repair has plugged everything in. Events of their own, in order, to be recorded before the
// answer: they can be undone by themselves. Nothing for any other event, nor for a reading that could not be
// reached.
std::vector<job::Body> granted(const Recommendation& advice, const job::Body& answer);

}  // namespace halfsplit::advice
