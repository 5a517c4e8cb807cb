#include "drawing/bus_scene.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "drawing/bands.hpp"
#include "drawing/bus_measures.hpp"
#include "drawing/part_words.hpp"
#include "drawing/wire_colours.hpp"

#include <algorithm>

namespace halfsplit::drawing {

namespace {

using harness::Harness;
using harness::Index;
using harness::none;
using harness::Part;
using harness::PartKind;

constexpr std::array<double, 2> line_y{76, 90};  // H above, L below

class BusScene {
  public:
    BusScene(const Harness& harness, Index network, const Grid& grid, const Marks& marks, Canvas& canvas)
        : harness_(harness),
          network_(network),
          grid_(grid),
          marks_(marks),
          canvas_(canvas),
          bands_(harness, grid) {}

    Size draw() {
        bands_.draw(canvas_);
        for (std::size_t i = 0; i < grid_.rails.size(); ++i) draw_rail(i);
        for (const Cell& cell : grid_.cells) draw_link(cell);
        for (const Closing& closing : grid_.closings) draw_closing(closing);
        for (const Cell& cell : grid_.cells) draw_part(cell);
        const std::size_t used = std::max<std::size_t>(widest(), 3);
        return {left_margin + margin + static_cast<double>(used) * cell_width, margin + bands_.bottom()};
    }

  private:
    std::size_t widest() const {
        std::size_t columns = 0;
        for (const Cell& cell : grid_.cells) columns = std::max(columns, cell.column + 1);
        return columns;
    }
    double left(const Cell& cell) const { return left_of(cell.column); }
    double top(const Cell& cell) const { return bands_.parts_top(cell.row); }
    const Part& part(const Cell& cell) const { return harness_.parts[cell.part]; }

    // Both lines as they are painted, an outline around them so that pale wires are seen.
    void draw_pair(Index run, double x1, double y1, double x2, double y2, bool down) {
        for (std::size_t line = 0; line < 2; ++line) {
            if (run != none && !harness_.parts[run].strand[line]) continue;
            const double shift = down ? 5.0 * static_cast<double>(line) : 0;
            const double sag = down ? 0 : line_y[line];
            const harness::Colour colour =
                run == none ? harness::Colour{} : harness_.parts[run].strand[line]->colour;
            canvas_.line(x1 + shift, y1 + sag, x2 + shift, y2 + sag,
                         fmt::format("stroke=\"{}\" stroke-width=\"4\"", ink));
            canvas_.line(x1 + shift, y1 + sag, x2 + shift, y2 + sag,
                         fmt::format("stroke=\"{}\" stroke-width=\"2.6\"", paint_of(colour.base).shade));
            if (!colour.stripe.empty())
                canvas_.line(x1 + shift, y1 + sag, x2 + shift, y2 + sag,
                             fmt::format("stroke=\"{}\" stroke-width=\"1.3\" stroke-dasharray=\"6 4\"",
                                         paint_of(colour.stripe).shade));
        }
    }

    std::string title_of(Index run) const {
        const Part& own = harness_.parts[run];
        std::string words = own.id;
        constexpr std::array<std::string_view, 2> names{"H", "L"};
        for (std::size_t line = 0; line < 2; ++line)
            if (own.strand[line])
                words += fmt::format(", {} {}", names[line], in_words(own.strand[line]->colour));
        return fmt::format("{}, {:g} m", words, own.length_m);
    }

    // Where a branch of that depth comes down.
    static double gutter_x(double left, std::size_t depth) { return left + (depth % 2 == 1 ? 3 : 12); }

    // Along above the branches, each of which comes down from it in its own colours: from the hub to the
    // first row of them, from there to the others down the margin, where no wire is crossed.
    void draw_rail(std::size_t index) {
        const Rail& rail = grid_.rails[index];
        const Cell& hub = grid_.cells[rail.hub];
        const auto before =
            std::find_if(grid_.rails.rbegin() + static_cast<long>(grid_.rails.size() - index),
                         grid_.rails.rend(), [&](const Rail& other) { return other.hub == rail.hub; });
        const bool first = before == grid_.rails.rend();
        const double y = bands_.rail_y(rail.row);
        const double branch = gutter_x(left_of(rail.last_column), hub.depth + 1);
        const double down =
            first ? gutter_x(left(hub), hub.depth + 1) : 2 + 7 * static_cast<double>(hub.depth % 2);
        const double start = first ? left(hub) + gutter : down;
        const double from = first ? top(hub) + symbol_top + symbol_height - 6 : bands_.rail_y(before->row);
        const double nearest = std::min(down, gutter_x(left_of(0), hub.depth + 1));
        canvas_.open_group("branches of " + part(hub).id);
        for (const double shift : {0.0, 5.0})
            canvas_.path(fmt::format("M{0:g} {1:g}H{2:g}V{3:g}M{4:g} {3:g}H{5:g}", start, from - 5 + shift,
                                     down + (first ? shift : shift * 0.6), y - shift, nearest,
                                     std::max(branch, down) + shift),
                         fmt::format("stroke=\"{}\" stroke-width=\"2\" fill=\"none\"", ink));
        canvas_.close_group();
        canvas_.text(left_of(0) + gutter, y - 7, text_width, "from " + part(hub).id,
                     {.size = small, .colour = tip_ink});
    }

    // A branch in the gutter at its left: from the rail above its row, or from the part that it hangs on.
    void draw_branch(const Cell& cell) {
        const double x = left(cell), y = top(cell), rail = gutter_x(x, cell.depth);
        const double root = cell.fanned ? bands_.rail_y(cell.row) - 5
                                        : top(grid_.cells[cell.from]) + symbol_top + symbol_height - 6;
        draw_pair(cell.run, rail, root, rail, y + line_y[1], true);
        if (!cell.fanned) canvas_.line(rail, root, x + gutter, root, fmt::format("stroke=\"{}\"", ink));
        draw_pair(cell.run, rail, y, x + gutter, y, false);
    }

    void draw_link(const Cell& cell) {
        if (cell.from == nowhere) return;
        const Cell& from = grid_.cells[cell.from];
        const Index run = cell.run;
        canvas_.open_group(run == none ? part(from).id + " to " + part(cell).id : title_of(run));
        const double x = left(cell), y = top(cell);
        if (!cell.branches && from.row == cell.row) {
            draw_pair(run, left(from) + link_left, y, x + gutter, y, false);
        } else if (cell.branches) {
            draw_branch(cell);
        } else {
            draw_pair(run, x, y, x + gutter, y, false);
            draw_pair(run, left(from) + link_left, top(from), left(from) + cell_width - 6, top(from), false);
        }
        canvas_.close_group();
        if (run != none) label_link(cell, from);
    }

    // The words of a run stand behind the part that it leaves; of a branch and of a new row, at its own end
    // there is no room: they stand with the part's own words.
    void label_link(const Cell& cell, const Cell& from) {
        const bool along = !cell.branches && from.row == cell.row;
        if (along) {
            write_run(cell.run, left(from) + link_left + 6, top(from));
        } else if (!cell.branches) {
            write_run(cell.run, left(from) + link_left + 6, top(from));
            canvas_.text(left(from) + link_left + 6, top(from) + 128, link_width - gutter - 12,
                         "on to " + part(cell).id, {.size = small, .colour = tip_ink});
        }
    }

    void write_run(Index run, double x, double y) {
        const Part& own = harness_.parts[run];
        const double width = link_width - gutter - 12;
        canvas_.text(x, y + 72, width, colours_of(own), {.size = small});
        canvas_.text(x, y + 104, width, fmt::format("{} {:g} m", own.id, own.length_m), {.size = small});
        write_state(own.id, x, y + 59, width);
    }

    void draw_closing(const Closing& closing) {
        const Cell& from = grid_.cells[closing.from];
        canvas_.open_group(title_of(closing.run));
        draw_pair(closing.run, left(from) + link_left, top(from), left(from) + cell_width - 14, top(from),
                  false);
        canvas_.close_group();
        if (taken_link(closing.from)) return;
        const double x = left(from) + link_left + 6;
        write_run(closing.run, x, top(from));
        if (closing.to != none)
            canvas_.text(x, top(from) + 128, link_width - gutter - 12,
                         "back to " + harness_.parts[closing.to].id, {.size = small, .colour = tip_ink});
    }

    bool taken_link(std::size_t from) const {
        return std::any_of(grid_.cells.begin(), grid_.cells.end(), [&](const Cell& cell) {
            return cell.from == from && !cell.branches && cell.run != none;
        });
    }

    // The sign and the word of a part's or run's state; empty where nothing is known.
    std::string state_of(const std::string& id) const {
        const auto suspect = marks_.suspects.find(id);
        if (marks_.found.contains(id)) return "FOUND";
        if (suspect != marks_.suspects.end()) return "? " + format_chance(suspect->second);
        return marks_.cleared.contains(id) ? "= good" : "";
    }

    void write_state(const std::string& id, double x, double y, double width) {
        const std::string_view colour = marks_.found.contains(id)      ? found_ink
                                        : marks_.suspects.contains(id) ? suspect_ink
                                                                       : good_ink;
        canvas_.text(x, y, width, state_of(id), {.size = small, .bold = true, .colour = colour});
    }

    std::string frame_of(const std::string& id) const {
        if (marks_.found.contains(id)) return fmt::format("stroke=\"{}\" stroke-width=\"4\"", found_ink);
        if (marks_.suspects.contains(id))
            return fmt::format("stroke=\"{}\" stroke-width=\"3\" stroke-dasharray=\"5 3\"", suspect_ink);
        return fmt::format("stroke=\"{}\" stroke-width=\"1.4\"", ink);
    }

    void draw_part(const Cell& cell) {
        const Part& own = part(cell);
        const double x = left(cell) + gutter, y = top(cell) + symbol_top;
        canvas_.open_group(std::string(word(own.kind)) + " " + own.id +
                           (own.name.empty() ? "" : ", " + own.name));
        draw_symbol(cell, x, y, frame_of(own.id) + fmt::format(" fill=\"{}\"", paper));
        canvas_.close_group();
        const double below = top(cell);
        write_state(own.id, x, below + 59, symbol_width);
        canvas_.text(x, below + 116, text_width, own.id, {.size = normal, .bold = true});
        write_words(cell, x, below);
    }

    void write_words(const Cell& cell, double x, double y) {
        const Part& own = part(cell);
        const TextStyle style{.size = small};
        canvas_.text(x, y + 128, symbol_width + 4, cavities_of(harness_, network_, cell.part), style);
        write_lines(canvas_, x, y + 139, text_width,
                    own.name.empty() || own.name == own.id ? std::string(word(own.kind)) : own.name, style,
                    2);
        write_tips(cell, x, y + 161);
    }

    // Clip and probe, and what is apart; where there is nothing of the kind, the wire of a branch.
    void write_tips(const Cell& cell, double x, double y) {
        const std::string& id = part(cell).id;
        std::vector<std::string> words;
        if (part_of(marks_.probe) == id) words.push_back("\u25b2probe " + marks_.probe);
        if (part_of(marks_.clip) == id) words.push_back("\u25b3clip " + marks_.clip);
        if (marks_.unplugged.contains(id)) words.push_back("unplugged");
        const bool wire = words.empty() && cell.branches && cell.run != none;
        if (wire) {
            const Part& run = harness_.parts[cell.run];
            words.push_back(fmt::format("{} {:g} m {}", run.id, run.length_m, colours_of(run)));
            const std::string state = state_of(run.id);
            if (!state.empty()) words.insert(words.begin(), state);
        }
        canvas_.text(
            x, y, text_width, join(words, " "),
            wire ? TextStyle{.size = small} : TextStyle{.size = small, .bold = true, .colour = tip_ink});
    }

    void draw_symbol(const Cell& cell, double x, double y, const std::string& style) {
        const Part& own = part(cell);
        switch (own.kind) {
            case PartKind::Connector:
                canvas_.rectangle(x, y, symbol_width / 2 - 3, symbol_height, style);
                canvas_.rectangle(x + symbol_width / 2 + 3, y, symbol_width / 2 - 3, symbol_height, style);
                break;
            case PartKind::Splice:
                for (const double at : line_y)
                    canvas_.circle(x + symbol_width / 2, y - symbol_top + at, 6, style);
                join_through(x, y);
                break;
            case PartKind::Terminator:
                canvas_.rectangle(x + 10, y, 16, symbol_height, style);
                // At the bus's first end the wires leave to the right.
                if (cell.from == nowhere)
                    join_to(x + 26, y, x + symbol_width);
                else
                    join_to(x, y, x + 10);
                break;
            case PartKind::BridgePlug:
                canvas_.path(fmt::format("M{:g} {:g}h{:g}v{:g}h-{:g}z", x, y, symbol_width, symbol_height,
                                         symbol_width),
                             style + " rx=\"6\"");
                canvas_.path(fmt::format("M{:g} {:g}h{:g}M{:g} {:g}h{:g}", x + 8, y + 12, symbol_width - 16,
                                         x + 8, y + 26, symbol_width - 16),
                             fmt::format("stroke=\"{}\" stroke-width=\"2\"", ink));
                break;
            case PartKind::Socket:
                canvas_.path(fmt::format("M{:g} {:g}h{:g}l-8 {:g}h-{:g}z", x, y, symbol_width, symbol_height,
                                         symbol_width - 16),
                             style);
                break;
            default:
                canvas_.rectangle(x, y, symbol_width, symbol_height, style);
        }
        if (marks_.unplugged.contains(own.id))
            canvas_.line(x - 4, y + symbol_height + 4, x + 12, y - 4,
                         fmt::format("stroke=\"{}\" stroke-width=\"5\"", tip_ink));
    }

    void join_to(double x, double y, double to) {
        for (const double at : line_y)
            canvas_.line(x, y - symbol_top + at, to, y - symbol_top + at, fmt::format("stroke=\"{}\"", ink));
    }
    void join_through(double x, double y) {
        join_to(x, y, x + symbol_width / 2 - 6);
        join_to(x + symbol_width / 2 + 6, y, x + symbol_width);
    }

    const Harness& harness_;
    Index network_;
    const Grid& grid_;
    const Marks& marks_;
    Canvas& canvas_;
    Bands bands_;
};

}  // namespace

std::string part_of(const std::string& tip) {
    return tip.substr(0, tip.find_first_of(".:"));
}

Size draw_bus(const Harness& harness, Index network, const Grid& grid, const Marks& marks, Canvas& canvas) {
    return BusScene(harness, network, grid, marks, canvas).draw();
}

}  // namespace halfsplit::drawing
