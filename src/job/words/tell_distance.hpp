// A measured distance, told back in plain words.
#pragma once

#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"

#include <string>

namespace halfsplit::job {

// "Distance to an open of line H, X1.b:4/5 110 pF, X2.a:1/2 290 pF".
std::string measured_words(const Distance& distance, const harness::Harness& harness);

}  // namespace halfsplit::job
