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
};

// A run whose other end is drawn already (a ring), or is nowhere.
struct Closing {
    std::size_t from = nowhere;
    harness::Index run = harness::none, to = harness::none;
};

struct Grid {
    std::vector<Cell> cells;  // in the order of the walk
    std::vector<Closing> closings;
    std::size_t rows = 0, columns = 0;
};

// Rows of at most `columns` cells. Linear but for the search for free rows.
Grid lay_out(const harness::Harness& harness, harness::Index network, std::size_t columns);

}  // namespace halfsplit::drawing
