// Measures of the picture, in its own units.
#pragma once

#include "drawing/canvas.hpp"

#include <cstddef>

namespace halfsplit::drawing {

// All within one cell; what hangs below a part is joined through the gutter at the left.
inline constexpr double cell_width = 164, cell_height = 172, margin = 8, left_margin = 18, line_height = 11;
inline constexpr double gutter = 22, symbol_width = 58, symbol_top = 64, symbol_height = 38;
inline constexpr double link_left = gutter + symbol_width, link_width = cell_width - symbol_width;
inline constexpr double text_width = cell_width - gutter - 4;
inline constexpr double small = 9, normal = 11;

inline double left_of(std::size_t column) {
    return left_margin + static_cast<double>(column) * cell_width;
}

// Words in up to `most` lines below each other, the first at `y`; what is cut is the end of the last.
void write_lines(Canvas& canvas, double x, double y, double width, const std::string& words,
                 const TextStyle& style, std::size_t most);
// How many lines that takes.
std::size_t lines_taken(double width, const std::string& words, const TextStyle& style, std::size_t most);

}  // namespace halfsplit::drawing
