// The bus as lines of text, one part each, under the names of their places.
#pragma once

#include "halfsplit/drawing/drawing.hpp"

#include "drawing/grid.hpp"

namespace halfsplit::drawing {

std::string map_text(const harness::Harness& harness, harness::Index network, const Grid& grid,
                     const Marks& marks, std::size_t columns);

}  // namespace halfsplit::drawing
