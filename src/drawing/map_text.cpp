#include "drawing/map_text.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "drawing/bus_scene.hpp"
#include "drawing/part_words.hpp"

#include <algorithm>

namespace halfsplit::drawing {

namespace {

using harness::Harness;
using harness::Index;
using harness::none;
using harness::Part;

constexpr std::size_t sign_width = 7;

class Map {
  public:
    Map(const Harness& harness, Index network, const Marks& marks, std::size_t columns)
        : harness_(harness), network_(network), marks_(marks), columns_(std::max<std::size_t>(columns, 30)) {}

    void add(const Grid& grid, std::size_t index) {
        const Cell& cell = grid.cells[index];
        const Cell* from = cell.from == nowhere ? nullptr : &grid.cells[cell.from];
        if (cell.run != none)
            add_run(cell.run, cell.depth, cell.branches && from != nullptr ? "from " + id(from->part) : "");
        add_place(harness_.parts[cell.part].access);
        add_part(cell);
    }

    void add_closing(const Grid& grid, const Closing& closing) {
        const Cell& from = grid.cells[closing.from];
        add_run(closing.run, from.depth,
                fmt::format("from {} back to {}", id(from.part),
                            closing.to == none ? "nothing" : id(closing.to)));
    }

    std::string text() && { return std::move(text_); }

  private:
    const std::string& id(Index part) const { return harness_.parts[part].id; }

    // A heading where the place or what comes off there changes.
    void add_place(const harness::Access& access) {
        if (access.place == none) return;
        if (place_ == access.place && covers_ == access.covers) return;
        std::string words;
        if (place_ != access.place) words = "[ " + harness_.places[access.place].name + " ]";
        std::vector<std::string> covers;
        for (const Index cover : access.covers) covers.push_back(harness_.covers[cover].name);
        if (!covers.empty()) words += (words.empty() ? "under " : ", under ") + join(covers, ", ");
        if (words.empty()) words = "nothing to take off";
        if (place_ != access.place) text_ += '\n';
        put(words, 2);
        place_ = access.place;
        covers_ = access.covers;
    }

    void put(const std::string& words, std::size_t indent) {
        // Clip and probe keep their names beside them: a hard blank holds until lines are broken.
        constexpr std::string_view hard_blank = "\u00a0";
        std::string lines = wrap(printable(words), columns_, indent);
        for (std::size_t at = lines.find(hard_blank); at != std::string::npos;
             at = lines.find(hard_blank, at))
            lines.replace(at, hard_blank.size(), " ");
        text_ += lines + '\n';
    }

    std::string sign(const std::string& part) const {
        if (marks_.found.contains(part)) return "FOUND";
        const auto suspect = marks_.suspects.find(part);
        if (suspect != marks_.suspects.end()) return "? " + format_chance(suspect->second);
        return marks_.cleared.contains(part) ? "=" : "";
    }

    void add_line(const std::string& part, const std::string& words, std::size_t depth) {
        const std::string head = fmt::format("{:<{}}{}", sign(part), sign_width, std::string(2 * depth, ' '));
        put(head + words, head.size() + 2);
    }

    void add_run(Index run, std::size_t depth, const std::string& whence) {
        const Part& own = harness_.parts[run];
        add_line(own.id,
                 fmt::format("| {}{}{:g} m {}", own.id + " ", whence.empty() ? "" : whence + ", ",
                             own.length_m, colours_of(own)),
                 depth);
    }

    void add_part(const Cell& cell) {
        const Part& own = harness_.parts[cell.part];
        std::string words = own.id + "  " + std::string(word(own.kind));
        const std::string cavities = cavities_of(harness_, network_, cell.part);
        if (!cavities.empty()) words += " " + cavities;
        if (!own.name.empty() && own.name != own.id) words += ", " + own.name;
        if (part_of(marks_.clip) == own.id) words += "  [clip\u00a0" + marks_.clip + "]";
        if (part_of(marks_.probe) == own.id) words += "  [probe\u00a0" + marks_.probe + "]";
        if (marks_.unplugged.contains(own.id)) words += "  [unplugged]";
        add_line(own.id, words, cell.depth);
    }

    const Harness& harness_;
    Index network_;
    const Marks& marks_;
    std::size_t columns_;
    Index place_ = none;
    std::vector<Index> covers_;
    std::string text_;
};

}  // namespace

std::string map_text(const Harness& harness, Index network, const Grid& grid, const Marks& marks,
                     std::size_t columns) {
    Map map(harness, network, marks, columns);
    for (std::size_t i = 0; i < grid.cells.size(); ++i) map.add(grid, i);
    for (const Closing& closing : grid.closings) map.add_closing(grid, closing);
    return std::move(map).text();
}

}  // namespace halfsplit::drawing
