// The harness as one line to draw: the way from the first terminator to the last, with what branches off in
// brackets.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::harness {

struct TrunkItem {
    Index part = none;
    std::size_t depth = 0;  // 0 on the trunk; 1 on a branch off it; and so on
};

// Every part of the network that is on this vehicle (`present`, by part) and hangs together, once each: a
// part, then the branches that leave it, then what follows it. In a ring the walk stops where it would come
// round. Linear.
std::vector<TrunkItem> trunk(const Harness& harness, Index network, const std::vector<char>& present);

}  // namespace halfsplit::harness
