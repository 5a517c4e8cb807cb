// What two harness files say differently, once usual values are put in: the parts and members by name.
#pragma once

#include "draft/words.hpp"

#include <string>
#include <vector>

namespace halfsplit::draft {

// A line for each member that `before` has and `after` has not, or has otherwise; and for what came in. Names
// that a sheet gives to wires without one are no difference.
std::vector<std::string> differences(const Json& before, const Json& after);

}  // namespace halfsplit::draft
