#include "drawing/bands.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "drawing/bus_measures.hpp"

#include <algorithm>

namespace halfsplit::drawing {

namespace {

constexpr std::size_t most_lines = 3;
constexpr double rail_height = 22, row_gap = 6, cover_top = 28;
constexpr TextStyle place_style{.size = 10, .bold = true}, cover_style{.size = small};

}  // namespace

Bands::Bands(const harness::Harness& harness, const Grid& grid)
    : harness_(harness), grid_(grid), rows_(grid.rows) {
    places_.assign(grid.rows, std::vector<const Cell*>(grid.columns, nullptr));
    for (const Cell& cell : grid.cells) places_[cell.row][cell.column] = &cell;
    for (const Cell& cell : grid.cells) {
        const Names& names = names_.emplace_back(names_of(cell));
        Row& row = rows_[cell.row];
        row.place_lines =
            std::max(row.place_lines, lines_taken(names.place_width, names.place, place_style, most_lines));
        row.cover_lines =
            std::max(row.cover_lines, lines_taken(names.covers_width, names.covers, cover_style, most_lines));
    }
    std::vector<double> above(grid.rows, 0);
    for (const Rail& rail : grid.rails) above[rail.row] = rail_height;
    double y = margin;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        rows_[i].band = y + above[i];
        const auto further = static_cast<double>(rows_[i].place_lines + rows_[i].cover_lines - 3);
        rows_[i].parts = rows_[i].band + line_height * further;
        y = rows_[i].parts + cell_height;
    }
}

double Bands::bottom() const {
    return rows_.empty() ? margin : rows_.back().parts + cell_height;
}

const Cell* Bands::at(std::size_t row, std::size_t column) const {
    return column < grid_.columns ? places_[row][column] : nullptr;
}

// Empty where the cell before has the same.
Bands::Names Bands::names_of(const Cell& cell) const {
    const harness::Access& own = access(cell);
    if (own.place == harness::none) return {};
    const Cell* before = cell.column > 0 ? at(cell.row, cell.column - 1) : nullptr;
    const bool same_place = before != nullptr && access(*before).place == own.place;
    const bool same_covers = same_place && access(*before).covers == own.covers;
    Names names{.same_place = same_place, .same_covers = same_covers};
    if (!same_place) {
        names.place = harness_.places[own.place].name;
        names.place_width = width_from(cell, false);
    }
    if (same_covers || own.covers.empty()) return names;
    std::vector<std::string> covers;
    for (const harness::Index cover : own.covers) covers.push_back(harness_.covers[cover].name);
    names.covers = "under " + join(covers, ", ");
    names.covers_width = width_from(cell, true);
    return names;
}

// Names go on over the cells that their band spans, as far as no branch comes down into one of these.
double Bands::width_from(const Cell& cell, bool covers) const {
    double width = text_width;
    for (std::size_t column = cell.column + 1; const Cell* next = at(cell.row, column); ++column) {
        const bool same = access(*next).place == access(cell).place &&
                          (!covers || access(*next).covers == access(cell).covers);
        if (!same || next->branches) break;
        width += cell_width;
    }
    return cell.depth == 0 ? width : text_width;
}

void Bands::draw(Canvas& canvas) const {
    for (std::size_t i = 0; i < grid_.cells.size(); ++i) draw_band(grid_.cells[i], names_[i], canvas);
}

void Bands::draw_band(const Cell& cell, const Names& names, Canvas& canvas) const {
    if (access(cell).place == harness::none) return;
    const Row& row = rows_[cell.row];
    const double x = left_of(cell.column), y = row.band;
    const double start = names.same_place ? x : x + 3;
    canvas.rectangle(start, y, x + cell_width - start, row.parts - row.band + cell_height - row_gap,
                     fmt::format("fill=\"{}\"", band));
    const double covers = y + cover_top + line_height * static_cast<double>(row.place_lines - 2);
    if (!access(cell).covers.empty())
        canvas.rectangle(names.same_covers ? x : x + 6, covers, cell_width - (names.same_covers ? 0 : 6),
                         2 + line_height * static_cast<double>(row.cover_lines),
                         fmt::format("fill=\"{}\"", cover_band));
    write_lines(canvas, x + gutter, y + 12, names.place_width, names.place, place_style, most_lines);
    write_lines(canvas, x + gutter, covers + 10, names.covers_width, names.covers, cover_style, most_lines);
}

}  // namespace halfsplit::drawing
