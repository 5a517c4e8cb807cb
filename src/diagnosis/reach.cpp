#include "halfsplit/diagnosis/reach.hpp"

#include "halfsplit/harness/harness.hpp"

#include <algorithm>

namespace halfsplit::diagnosis {

using electrics::Change;
using electrics::Edge;
using electrics::EdgeKind;
using electrics::Node;
using harness::none;

namespace {

// From here on a terminator is as good as missing.
constexpr double no_terminator_ohm = 1000;

bool is_series(EdgeKind kind) {
    return kind == EdgeKind::Wire || kind == EdgeKind::Contact || kind == EdgeKind::Crimp ||
           kind == EdgeKind::Through;
}

}  // namespace

Reaches::Reaches(const electrics::Assembly& assembly, const electrics::Graph& graph)
    : assembly_(assembly), graph_(graph), sound_(assembly.roles.size(), 0) {
    for (std::size_t edge = 0; edge < sound_.size(); ++edge)
        sound_[edge] = lets_through(edge, assembly.circuit.edges[edge].ohm) ? 1 : 0;
}

bool Reaches::lets_through(std::size_t edge, double ohm) const {
    const EdgeKind kind = assembly_.roles[edge].kind;
    return (is_series(kind) && ohm < blocking_ohm) ||
           (kind == EdgeKind::Terminator && ohm < no_terminator_ohm);
}

const Reach& Reaches::after(const std::vector<Change>& changes) {
    std::vector<std::size_t> turned;
    for (const Change& change : changes) {
        if (lets_through(change.edge, change.ohm) != (sound_[change.edge] != 0))
            turned.push_back(change.edge);
    }
    std::sort(turned.begin(), turned.end());
    const auto known = known_.find(turned);
    if (known != known_.end()) return known->second;
    Reach reach = walk(turned);
    return known_.emplace(std::move(turned), std::move(reach)).first->second;
}

// From the socket along both lines at once: the lines do not meet but in terminators, which do not lead on.
Reach Reaches::walk(const std::vector<std::size_t>& turned) const {
    std::vector<char> state = sound_;
    for (const std::size_t edge : turned) state[edge] = state[edge] == 0 ? 1 : 0;
    std::vector<char> conducts = state;
    for (std::size_t edge = 0; edge < conducts.size(); ++edge) {
        if (!is_series(assembly_.roles[edge].kind)) conducts[edge] = 0;
    }
    std::vector<Node> start{assembly_.socket_high};
    if (assembly_.socket_low != none) start.push_back(assembly_.socket_low);
    const auto reached = graph_.reached(start, conducts);
    const auto leads_to = [&](Node node) { return node != none && reached[node] != 0; };
    Reach result;
    result.reached.assign(reached.begin(), reached.end());
    for (const auto& module : assembly_.modules)
        result.modules.push_back(
            {leads_to(module.high), leads_to(module.low == none ? module.high : module.low)});
    for (std::size_t edge = 0; edge < state.size(); ++edge) {
        if (assembly_.roles[edge].kind != EdgeKind::Terminator) continue;
        const Edge& own = assembly_.circuit.edges[edge];
        if (state[edge] == 0 || !leads_to(own.from) || !leads_to(own.to)) result.terminator_missing = true;
    }
    return result;
}

}  // namespace halfsplit::diagnosis
