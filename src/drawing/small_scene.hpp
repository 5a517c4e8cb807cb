// The bus in small: a sign for each part and a line for each run, and marks that can be laid over it.
#pragma once

#include "halfsplit/drawing/drawing.hpp"

#include "drawing/canvas.hpp"
#include "drawing/grid.hpp"

namespace halfsplit::drawing {

// So many that a unit is a pixel at 360 pixels' width, and text can be read there.
inline constexpr std::size_t small_columns = 6;

struct SmallSize {
    double width = 0, height = 0;
};
SmallSize small_size(const Grid& grid);

void draw_small(const harness::Harness& harness, const Grid& grid, Canvas& canvas);
// Suspects with their names and chances, what was found, clip and probe.
void draw_small_marks(const harness::Harness& harness, const Grid& grid, const Marks& marks, Canvas& canvas);

}  // namespace halfsplit::drawing
