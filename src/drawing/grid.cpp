#include "drawing/grid.hpp"

#include "halfsplit/harness/trunk.hpp"
#include "halfsplit/harness/variants.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace halfsplit::drawing {

namespace {

using harness::Harness;
using harness::Index;
using harness::none;

// From the walk along the bus to cells and what each hangs on.
class Chain {
  public:
    Chain(const Harness& harness, Index network)
        : harness_(harness), present_(harness::variants(harness).front().present) {
        for (Index plug = 0; plug < harness.parts.size(); ++plug) {
            if (harness.parts[plug].kind != harness::PartKind::BridgePlug || present_[plug] == 0) continue;
            for (const harness::Port& port : {harness.parts[plug].in, harness.parts[plug].out})
                for (const Index terminal : port.terminal)
                    if (terminal != none) plug_at_[terminal] = plug;
        }
        for (const harness::TrunkItem& item : harness::trunk(harness, network, present_)) take(item);
        for (auto& [depth, waiting] : waiting_) close(waiting);
    }

    Grid grid() && { return std::move(grid_); }

  private:
    struct Waiting {
        Index run = none;
        std::size_t from = nowhere;
    };

    Index owner(Index terminal) const {
        const Index part = harness_.terminals[terminal].part;
        const auto plug = plug_at_.find(terminal);
        return present_[part] == 0 && plug != plug_at_.end() ? plug->second : part;
    }

    std::pair<Index, Index> ends(Index run) const {
        const auto& strand =
            harness_.parts[run].strand[0] ? harness_.parts[run].strand[0] : harness_.parts[run].strand[1];
        return {owner(strand->from), owner(strand->to)};
    }

    bool touches(Index run, Index part) const {
        const auto [from, to] = ends(run);
        return from == part || to == part;
    }

    // The cell that a run of that depth leaves: the one before on its own line, or where the branch leaves.
    std::size_t left_by(Index run, std::size_t depth) const {
        for (std::size_t d = depth + 1; d-- > 0;) {
            const auto last = last_.find(d);
            if (last == last_.end()) continue;
            if (touches(run, grid_.cells[last->second].part)) return last->second;
        }
        return nowhere;
    }

    void take(const harness::TrunkItem& item) {
        Waiting& waiting = waiting_[item.depth];
        if (harness_.parts[item.part].kind == harness::PartKind::Run) {
            close(waiting);
            waiting = {item.part, left_by(item.part, item.depth)};
            return;
        }
        Cell cell{item.part, item.depth, nowhere, none, 0, 0, false};
        if (waiting.run != none && touches(waiting.run, item.part)) {
            cell.run = waiting.run;
            cell.from = waiting.from;
            waiting = {};
        } else if (const auto last = last_.find(item.depth); last != last_.end()) {
            cell.from = last->second;
        } else if (item.depth > 0) {
            cell.from = last_.at(item.depth - 1);
        }
        cell.branches = cell.from != nowhere && grid_.cells[cell.from].depth < item.depth;
        last_[item.depth] = grid_.cells.size();
        last_.erase(last_.upper_bound(item.depth), last_.end());
        grid_.cells.push_back(cell);
    }

    void close(Waiting& waiting) {
        if (waiting.run == none || waiting.from == nowhere) return;
        const auto [from, to] = ends(waiting.run);
        const Index here = grid_.cells[waiting.from].part;
        grid_.closings.push_back({waiting.from, waiting.run, from == here ? to : from});
        waiting = {};
    }

    const Harness& harness_;
    std::vector<char> present_;
    std::map<Index, Index> plug_at_;           // by terminal
    std::map<std::size_t, std::size_t> last_;  // cell, by depth
    std::map<std::size_t, Waiting> waiting_;   // by depth
    Grid grid_;
};

// Rows and columns: the trunk along its rows, each branch below where it leaves, as high as there is room.
class Rows {
  public:
    Rows(Grid& grid, std::size_t columns) : grid_(grid), columns_(columns) {
        std::vector<std::size_t> branches(grid.cells.size(), 0);
        for (const Cell& cell : grid.cells)
            if (cell.branches) ++branches[cell.from];
        for (Cell& cell : grid.cells) cell.fanned = cell.branches && branches[cell.from] >= fewest_to_fan;
    }

    void place() {
        for (std::size_t i = 0; i < grid_.cells.size(); ++i) {
            Cell& cell = grid_.cells[i];
            if (cell.from == nowhere) {
                put(cell, taken_.size(), 0);
            } else if (cell.branches) {
                branch_off(cell, line_length(i));
            } else {
                go_on(cell, i);
            }
        }
        grid_.rows = taken_.size();
        grid_.columns = columns_;
    }

  private:
    static constexpr std::size_t fewest_to_fan = 3;

    // Below where it leaves; or on a rail, where it is one of many or has no room to the right.
    void branch_off(Cell& cell, std::size_t length) {
        const Cell& root = grid_.cells[cell.from];
        cell.fanned = cell.fanned || (root.column > 0 && root.column + length > columns_);
        if (cell.fanned)
            put_on_rail(cell, length);
        else
            put(cell, free_row(root.row + 1, root.column, length), root.column);
    }

    // The rail of this hub that has room left, or a new one in a row below all others: what hangs below its
    // branches comes under it, and no later branch goes back to it.
    void put_on_rail(Cell& cell, std::size_t length) {
        const auto last = rail_of_.find(cell.from);
        if (last == rail_of_.end() || next_on(grid_.rails[last->second]) + length > columns_) {
            rail_of_[cell.from] = grid_.rails.size();
            railed_.insert(taken_.size());
            grid_.rails.push_back({cell.from, taken_.size(), 0});
        }
        Rail& rail = grid_.rails[rail_of_.at(cell.from)];
        const bool first = rail.row == taken_.size();
        put(cell, rail.row, first ? 0 : next_on(rail));
        rail.last_column = cell.column;
    }

    // The column behind the last branch on it.
    std::size_t next_on(const Rail& rail) const {
        std::size_t column = rail.last_column;
        while (column < columns_ && taken_[rail.row][column]) ++column;
        return column;
    }

    // How many cells the line has that begins here, and no more than a row holds.
    std::size_t line_length(std::size_t first) const {
        std::size_t length = 1;
        std::size_t last = first;
        for (std::size_t i = first + 1; i < grid_.cells.size(); ++i) {
            if (grid_.cells[i].from != last || grid_.cells[i].branches) continue;
            last = i;
            ++length;
        }
        return std::min(length, columns_);
    }

    std::size_t free_row(std::size_t row, std::size_t column, std::size_t length) const {
        for (; row < taken_.size(); ++row) {
            bool free = !railed_.contains(row);
            for (std::size_t c = column; c < column + length; ++c) free = free && !taken_[row][c];
            if (free) return row;
        }
        return row;
    }

    void go_on(Cell& cell, std::size_t index) {
        const Cell& before = grid_.cells[cell.from];
        const std::size_t next = before.column + 1;
        const bool trunk = cell.depth == 0;
        if (next < columns_ && !(taken_[before.row][next])) return put(cell, before.row, next);
        if (trunk) return put(cell, taken_.size(), 0);
        const std::size_t column = line_start(index);
        put(cell, free_row(before.row + 1, column, 1), column);
    }

    // Column in which the branch of this cell begins.
    std::size_t line_start(std::size_t index) const {
        std::size_t at = index;
        while (!grid_.cells[at].branches && grid_.cells[at].from != nowhere) at = grid_.cells[at].from;
        return grid_.cells[at].column;
    }

    void put(Cell& cell, std::size_t row, std::size_t column) {
        while (taken_.size() <= row) taken_.emplace_back(columns_, false);
        taken_[row][column] = true;
        cell.row = row;
        cell.column = column;
    }

    Grid& grid_;
    std::size_t columns_;
    std::vector<std::vector<bool>> taken_;
    std::map<std::size_t, std::size_t> rail_of_;  // the newest, by hub
    std::set<std::size_t> railed_;                // rows
};

}  // namespace

Grid lay_out(const Harness& harness, Index network, std::size_t columns) {
    Grid grid = Chain(harness, network).grid();
    Rows(grid, columns).place();
    return grid;
}

}  // namespace halfsplit::drawing
