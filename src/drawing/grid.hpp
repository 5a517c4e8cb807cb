// Where each part of a network stands: rows and columns, and the runs between them.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::drawing {

inline constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

// A part that is no run.
struct Cell {
    harness::Index part = harness::none;
    std::size_t depth = 0;               // 0 on the trunk
    std::size_t from = nowhere;          // cell that the pair comes from
    harness::Index run = harness::none;  // by which; none where the part sits on the other
    std::size_t row = 0, column = 0;
    bool branches = false;  // begins a branch: hangs below `from`
    bool fanned = false;    // hangs on a rail above its row
};

// The line above a row on which the branches of one part hang side by side, the first in the first column.
struct Rail {
    std::size_t hub = nowhere;             // cell
    std::size_t row = 0, last_column = 0;  // in which the last one begins
};

// A run whose other end is drawn already (a ring), or is nowhere.
struct Closing {
    std::size_t from = nowhere;
    harness::Index run = harness::none, to = harness::none;
};

struct Grid {
    std::vector<Cell> cells;  // in the order of the walk
    std::vector<Closing> closings;
    std::vector<Rail> rails;  // from the top
    std::size_t rows = 0, columns = 0;
};

// Rows of at most `columns` cells. A branch hangs below where it leaves; from three branches of one part on,
// or where one has no room to the right, they share rows of their own, side by side. Linear but for the
// search for free rows.
Grid lay_out(const harness::Harness& harness, harness::Index network, std::size_t columns);

}  // namespace halfsplit::drawing
