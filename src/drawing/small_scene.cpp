#include "drawing/small_scene.hpp"

#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "drawing/bus_scene.hpp"

#include <algorithm>

namespace halfsplit::drawing {

namespace {

using harness::Harness;
using harness::Index;
using harness::none;
using harness::PartKind;

constexpr double step_width = 56, step_height = 46, half_sign = 8, middle_x = 28, middle_y = 16;
constexpr std::string_view thin = "stroke=\"#111111\" fill=\"#ffffff\"";

struct Spot {
    double x = 0, y = 0;
};

Spot spot_of(const Cell& cell) {
    return {step_width * static_cast<double>(cell.column) + middle_x,
            step_height * static_cast<double>(cell.row) + middle_y};
}

// Where a run is marked: halfway along its line, or beside the part that it leads to.
Spot spot_of_run(const Grid& grid, const Cell& cell) {
    const Spot here = spot_of(cell);
    const Cell& from = grid.cells[cell.from];
    if (!cell.branches && from.row == cell.row) return {here.x - step_width / 2, here.y};
    return {here.x - middle_x + 4, here.y};
}

void draw_way(const Grid& grid, const Cell& cell, Canvas& canvas) {
    if (cell.from == nowhere) return;
    const Spot here = spot_of(cell);
    const Cell& from = grid.cells[cell.from];
    const Spot there = spot_of(from);
    if (from.row == cell.row) return canvas.line(there.x, there.y, here.x, here.y, "stroke=\"#111111\"");
    if (cell.branches) {
        const double rail = here.x - middle_x + 4 + 4 * static_cast<double>(cell.depth % 2);
        return canvas.path(
            fmt::format("M{:g} {:g}H{:g}V{:g}H{:g}", there.x, there.y + 4, rail, here.y, here.x),
            "stroke=\"#111111\" fill=\"none\"");
    }
    canvas.line(there.x, there.y, there.x + middle_x, there.y, "stroke=\"#111111\" stroke-dasharray=\"3 2\"");
    canvas.line(here.x - middle_x, here.y, here.x, here.y, "stroke=\"#111111\" stroke-dasharray=\"3 2\"");
}

void draw_sign(PartKind kind, const Spot& at, Canvas& canvas) {
    switch (kind) {
        case PartKind::Connector:
            canvas.rectangle(at.x - half_sign, at.y - half_sign, 6, 2 * half_sign, thin);
            canvas.rectangle(at.x + 2, at.y - half_sign, 6, 2 * half_sign, thin);
            break;
        case PartKind::Splice:
            canvas.circle(at.x, at.y, 4, "fill=\"#111111\"");
            break;
        case PartKind::Terminator:
            canvas.rectangle(at.x - 3, at.y - half_sign, 6, 2 * half_sign, thin);
            break;
        default:
            canvas.rectangle(at.x - half_sign, at.y - half_sign, 2 * half_sign, 2 * half_sign, thin);
    }
}

void write_mark(const Spot& at, const std::string& sign, const std::string& words, std::string_view colour,
                Canvas& canvas) {
    canvas.rectangle(at.x - half_sign - 2, at.y - half_sign - 2, 2 * half_sign + 4, 2 * half_sign + 4,
                     fmt::format("fill=\"none\" stroke=\"{}\" stroke-width=\"2.4\"", colour));
    canvas.text(at.x - 4, at.y + 4, 12, sign, {.size = 12, .bold = true, .colour = colour});
    canvas.text(at.x - middle_x + 1, at.y + 22, step_width - 2, words,
                {.size = 9, .bold = true, .colour = colour});
}

class SmallMarks {
  public:
    SmallMarks(const Marks& marks, Canvas& canvas) : marks_(marks), canvas_(canvas) {}

    void mark(const std::string& id, const Spot& at) {
        const auto suspect = marks_.suspects.find(id);
        if (marks_.found.contains(id)) {
            write_mark(at, "!", id, found_ink, canvas_);
        } else if (suspect != marks_.suspects.end()) {
            write_mark(at, "?", id + " " + format_chance(suspect->second), suspect_ink, canvas_);
        } else if (marks_.cleared.contains(id)) {
            canvas_.line(at.x - 5, at.y + 11, at.x + 5, at.y + 11,
                         fmt::format("stroke=\"{}\" stroke-width=\"3\"", good_ink));
        }
        if (part_of(marks_.probe) == id)
            tip("\u25b2probe", at, 32);
        else if (part_of(marks_.clip) == id)
            tip("\u25b3clip", at, 32);
    }

  private:
    void tip(std::string_view words, const Spot& at, double below) {
        canvas_.text(at.x - middle_x + 1, at.y + below - 1, step_width - 2, words,
                     {.size = 8, .bold = true, .colour = tip_ink});
    }

    const Marks& marks_;
    Canvas& canvas_;
};

}  // namespace

SmallSize small_size(const Grid& grid) {
    return {step_width * static_cast<double>(small_columns),
            step_height * static_cast<double>(std::max<std::size_t>(grid.rows, 1)) + 4};
}

void draw_small(const Harness& harness, const Grid& grid, Canvas& canvas) {
    for (const Cell& cell : grid.cells) draw_way(grid, cell, canvas);
    for (const Cell& cell : grid.cells) draw_sign(harness.parts[cell.part].kind, spot_of(cell), canvas);
}

void draw_small_marks(const Harness& harness, const Grid& grid, const Marks& marks, Canvas& canvas) {
    SmallMarks signs(marks, canvas);
    for (const Cell& cell : grid.cells) {
        signs.mark(harness.parts[cell.part].id, spot_of(cell));
        if (cell.run == none || cell.from == nowhere) continue;
        const std::string& run = harness.parts[cell.run].id;
        const Spot at = spot_of_run(grid, cell);
        if (marks.suspects.contains(run) || marks.found.contains(run))
            canvas.text(
                at.x - 3, at.y - 3, 8, marks.found.contains(run) ? "!" : "?",
                {.size = 11, .bold = true, .colour = marks.found.contains(run) ? found_ink : suspect_ink});
    }
}

}  // namespace halfsplit::drawing
