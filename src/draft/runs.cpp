#include "draft/runs.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace halfsplit::draft {

namespace {

std::pair<std::size_t, std::size_t> parts_of(const LoomWire& wire) {
    return std::minmax(wire.ends[0].part, wire.ends[1].part);
}

bool are_alike(const LoomWire& one, const LoomWire& other) {
    const double longer = std::max(one.length_m, other.length_m);
    return one.section_mm2 == other.section_mm2 && std::abs(one.length_m - other.length_m) <= longer / 10;
}

// Of those that go the same way, one of the same twisted group before any other.
std::vector<std::size_t>::iterator companion_in(const Loom& loom, std::size_t wire,
                                                std::vector<std::size_t>& candidates) {
    const LoomWire& it = loom.wires[wire];
    const auto grouped = [&](std::size_t other) {
        return !it.group.empty() && it.group == loom.wires[other].group && are_alike(it, loom.wires[other]);
    };
    const auto best = std::find_if(candidates.begin(), candidates.end(), grouped);
    if (best != candidates.end()) return best;
    return std::find_if(candidates.begin(), candidates.end(),
                        [&](std::size_t other) { return are_alike(it, loom.wires[other]); });
}

// A wire that is named with digits alone would look like a cavity.
std::string run_id(const LoomWire& wire) {
    const bool digit = !wire.id.empty() && wire.id.front() >= '0' && wire.id.front() <= '9';
    return digit ? 'W' + wire.id : wire.id;
}

}  // namespace

std::vector<DraftedRun> drafted_runs(const Loom& loom, const Followed& followed, NameMaker& names) {
    std::vector<DraftedRun> runs;
    std::map<std::pair<std::size_t, std::size_t>, std::vector<std::size_t>>
        left;  // of L, by the parts joined
    if (followed.lines.size() == 2) {
        for (const std::size_t wire : followed.lines[1].wires)
            left[parts_of(loom.wires[wire])].push_back(wire);
    }
    for (const std::size_t wire : followed.lines[0].wires) {
        DraftedRun run;
        run.wire[0] = wire;
        std::string id = run_id(loom.wires[wire]);
        std::vector<std::size_t>& candidates = left[parts_of(loom.wires[wire])];
        const auto best = companion_in(loom, wire, candidates);
        if (best != candidates.end()) {
            run.wire[1] = *best;
            id += '+' + run_id(loom.wires[*best]);
            candidates.erase(best);
        }
        run.id = names.id(id, "wire");
        runs.push_back(std::move(run));
    }
    for (const auto& [parts, wires] : left) {
        for (const std::size_t wire : wires)
            runs.push_back({names.id(run_id(loom.wires[wire]), "wire"), {nowhere, wire}});
    }
    return runs;
}

}  // namespace halfsplit::draft
