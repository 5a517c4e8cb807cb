// The picture of one network, part by part.
#pragma once

#include "halfsplit/drawing/drawing.hpp"

#include "drawing/canvas.hpp"
#include "drawing/grid.hpp"

namespace halfsplit::drawing {

struct Size {
    double width = 0, height = 0;
};

// Draws the bus with its marks; what it takes.
Size draw_bus(const harness::Harness& harness, harness::Index network, const Grid& grid, const Marks& marks,
              Canvas& canvas);

// The faces of the network's connectors below `top`, those of the probe and the clip first; what height they
// take within `width`.
double draw_faces(const harness::Harness& harness, harness::Index network, const Marks& marks, double top,
                  double width, Canvas& canvas);

// The part that a terminal, point or part name is about.
std::string part_of(const std::string& tip);

}  // namespace halfsplit::drawing
