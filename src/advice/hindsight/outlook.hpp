// A belief summed up for a reader: where the fault is thought to be, and how much a step changed that.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/harness/harness.hpp"

#include <vector>

namespace halfsplit::advice {

// By part, then "nothing wrong"; sums to 1. An explanation of two faults counts for both parts alike.
std::vector<double> whereabouts(const harness::Harness& harness, const diagnosis::Belief& belief);

Told told(const std::vector<double>& before, const std::vector<double>& after);

Outlook outlook(const harness::Harness& harness, const diagnosis::Belief& belief);

// Faults with a chance of 1 % or more, likeliest first, at most so many.
std::vector<SuspectView> suspect_views(const harness::Harness& harness, const diagnosis::Belief& belief,
                                       std::size_t most);

// Chance that the part has been at fault at any time, whether repaired since or not.
double ever_faulty(const diagnosis::Belief& belief, harness::Index part);

}  // namespace halfsplit::advice
