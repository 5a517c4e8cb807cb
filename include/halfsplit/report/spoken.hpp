// The next step as one line to be read out: words in place of signs, no columns, the place before the probe.
#pragma once

#include "halfsplit/advice/recommendation.hpp"

#include <string>

namespace halfsplit::report {

// "Next: go to the rear corner, take off sill plate. Read X5 half a, cavity 5, blue with yellow, against the
// clip. 16 minutes." No line end.
std::string spoken(const advice::Recommendation& advice);

}  // namespace halfsplit::report
