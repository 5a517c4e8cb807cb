// The bands behind the parts: where each is, and what comes off there. They say how high each row is.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include "drawing/canvas.hpp"
#include "drawing/grid.hpp"

#include <string>
#include <vector>

namespace halfsplit::drawing {

class Bands {
  public:
    // Keeps references. Quadratic in the cells of one row.
    Bands(const harness::Harness& harness, const Grid& grid);

    void draw(Canvas& canvas) const;
    // From where a row's parts are measured; lower by as much as the names above them need.
    double parts_top(std::size_t row) const { return rows_[row].parts; }
    double rail_y(std::size_t row) const { return rows_[row].band - 11; }
    double bottom() const;

  private:
    // Names that stand at the head of a cell, and the room they have.
    struct Names {
        std::string place, covers;
        double place_width = 0, covers_width = 0;
        bool same_place = false, same_covers = false;  // as the cell before has
    };
    struct Row {
        std::size_t place_lines = 2, cover_lines = 1;
        double band = 0, parts = 0;
    };

    const harness::Access& access(const Cell& cell) const { return harness_.parts[cell.part].access; }
    Names names_of(const Cell& cell) const;
    const Cell* at(std::size_t row, std::size_t column) const;
    double width_from(const Cell& cell, bool covers) const;
    void draw_band(const Cell& cell, const Names& names, Canvas& canvas) const;

    const harness::Harness& harness_;
    const Grid& grid_;
    std::vector<std::vector<const Cell*>> places_;  // by row and column
    std::vector<Names> names_;                      // by cell
    std::vector<Row> rows_;
};

}  // namespace halfsplit::drawing
