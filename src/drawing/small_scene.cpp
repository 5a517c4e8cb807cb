#include "drawing/small_scene.hpp"

#include "halfsplit/base/text.hpp"
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

constexpr double step_width = 56, step_height = 48, half_sign = 8, middle_x = 28, middle_y = 16;
constexpr double words_size = 10, first_line = 22, second_line = 32;
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

double rail_x(const Spot& spot, std::size_t depth) {
    return spot.x - middle_x + 4 + 4 * static_cast<double>(depth % 2);
}

double rail_y(const Spot& spot) {
    return spot.y - middle_y + 2;
}

// From the hub down to the rows of its branches, and along above each.
void draw_rail(const Grid& grid, const Rail& rail, Canvas& canvas) {
    const Cell& hub = grid.cells[rail.hub];
    const Spot root = spot_of(hub);
    const double y = rail_y({0, step_height * static_cast<double>(rail.row) + middle_y});
    const double down = rail_x(root, hub.depth + 1);
    const double last =
        rail_x({step_width * static_cast<double>(rail.last_column) + middle_x, 0}, hub.depth + 1);
    const double first = rail_x({middle_x, 0}, hub.depth + 1);
    canvas.path(fmt::format("M{0:g} {1:g}H{2:g}V{3:g}M{4:g} {3:g}H{5:g}", root.x, root.y + 4, down, y, first,
                            std::max(down, last)),
                "stroke=\"#111111\" fill=\"none\"");
}

void draw_way(const Grid& grid, const Cell& cell, Canvas& canvas) {
    if (cell.from == nowhere) return;
    const Spot here = spot_of(cell);
    const Cell& from = grid.cells[cell.from];
    const Spot there = spot_of(from);
    if (from.row == cell.row) return canvas.line(there.x, there.y, here.x, here.y, "stroke=\"#111111\"");
    if (cell.branches) {
        const double rail = rail_x(here, cell.depth);
        const double start = cell.fanned ? rail_y(here) : there.y + 4;
        return canvas.path(
            cell.fanned ? fmt::format("M{:g} {:g}V{:g}H{:g}", rail, start, here.y, here.x)
                        : fmt::format("M{:g} {:g}H{:g}V{:g}H{:g}", there.x, start, rail, here.y, here.x),
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

void write_line(const Spot& at, double below, std::string_view words, std::string_view colour,
                Canvas& canvas) {
    canvas.text(at.x - middle_x + 1, at.y + below, step_width - 2, words,
                {.size = words_size, .bold = true, .colour = colour});
}

class SmallMarks {
  public:
    SmallMarks(const Marks& marks, Canvas& canvas) : marks_(marks), canvas_(canvas) {}

    void mark(const std::string& id, const Spot& at) {
        const auto suspect = marks_.suspects.find(id);
        if (marks_.found.contains(id)) {
            frame(at, "!", found_ink);
            write(id, "", at, found_ink);
        } else if (suspect != marks_.suspects.end()) {
            frame(at, "?", suspect_ink);
            write(id, format_chance(suspect->second), at, suspect_ink);
        } else {
            if (marks_.cleared.contains(id))
                canvas_.line(at.x - 5, at.y + 11, at.x + 5, at.y + 11,
                             fmt::format("stroke=\"{}\" stroke-width=\"3\"", good_ink));
            if (!tip_of(id).empty()) write(id, "", at, tip_ink);
        }
    }

  private:
    std::string_view tip_of(const std::string& id) const {
        if (part_of(marks_.probe) == id) return "\u25b2probe";
        return part_of(marks_.clip) == id ? "\u25b3clip" : "";
    }

    void frame(const Spot& at, const std::string& sign, std::string_view colour) {
        canvas_.rectangle(at.x - half_sign - 2, at.y - half_sign - 2, 2 * half_sign + 4, 2 * half_sign + 4,
                          fmt::format("fill=\"none\" stroke=\"{}\" stroke-width=\"2.4\"", colour));
        canvas_.text(at.x - 4, at.y + 4, 12, sign, {.size = 12, .bold = true, .colour = colour});
    }

    // The name with its chance, and the tip below; a chance that has no room beside the name stands with the
    // tip, of which there is the sign alone then.
    void write(const std::string& id, const std::string& chance, const Spot& at, std::string_view colour) {
        const auto room = static_cast<std::size_t>((step_width - 2) / (character_advance * words_size));
        const std::string both = chance.empty() ? id : id + " " + chance;
        std::string_view tip = tip_of(id);
        if (display_width(both) <= room) {
            write_line(at, first_line, both, colour, canvas_);
            return write_line(at, second_line, tip, tip_ink, canvas_);
        }
        constexpr std::size_t sign_bytes = 3;
        if (!chance.empty()) tip = tip.substr(0, sign_bytes);
        write_line(at, first_line, id, colour, canvas_);
        write_line(
            at, second_line,
            chance.empty() || tip.empty() ? chance + std::string(tip) : chance + " " + std::string(tip),
            chance.empty() ? tip_ink : colour, canvas_);
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
    for (const Rail& rail : grid.rails) draw_rail(grid, rail, canvas);
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
