// The harness reduced to this vehicle: what is fitted, what is not, which bridge plugs are in.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <vector>

namespace halfsplit::harness {

// Whether each part is on this vehicle (by part index). A bridge plug is there when what it stands in for is
// not, and the other way round; Unknown
// leaves it open: see variants.hpp for how a hunt keeps both in play.
std::vector<Fitted> presence(const Harness& harness);

// Modules on a network that are on this vehicle or may be.
std::vector<Index> modules_on(const Harness& harness, Index network);

}  // namespace halfsplit::harness
