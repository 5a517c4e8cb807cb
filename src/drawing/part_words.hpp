// Words about parts that the picture and the map share.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <string>

namespace halfsplit::drawing {

// "4/5 7/8": the cavities of the network's pair, once for each way that it goes through the part.
std::string cavities_of(const harness::Harness& harness, harness::Index network, harness::Index part);

// "YEBK/BU": the colour codes of a run's lines, base then stripe; "?" where none is stated.
std::string colours_of(const harness::Part& run);

}  // namespace halfsplit::drawing
