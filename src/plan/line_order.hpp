// Do the tests cut one line? Then suspects can be put in an order in which each test shows one outcome up to
// some suspect and another after it.
#pragma once

#include "plan/model.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace halfsplit::plan {

// The suspects in that order; of those that no test tells apart by element. Nothing where there is none. As
// many steps as tests times suspects.
std::optional<std::vector<std::uint32_t>> line_order(const Model& model);

}  // namespace halfsplit::plan
