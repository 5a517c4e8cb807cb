#include "diagnosis/loops.hpp"

#include <algorithm>

namespace halfsplit::diagnosis {

using electrics::Assembly;
using electrics::EdgeKind;

namespace {

bool is_of_a_line(EdgeKind kind) {
    return kind == EdgeKind::Wire || kind == EdgeKind::Contact || kind == EdgeKind::Crimp ||
           kind == EdgeKind::Through;
}

std::vector<char> lines_alone(const Assembly& assembly) {
    std::vector<char> conducts;
    conducts.reserve(assembly.roles.size());
    for (const electrics::EdgeRole& role : assembly.roles)
        conducts.push_back(is_of_a_line(role.kind) ? 1 : 0);
    return conducts;
}

}  // namespace

Loops::Loops(const Assembly& assembly)
    : assembly_(assembly),
      cuts_(assembly.circuit, electrics::Graph(assembly.circuit), lines_alone(assembly)) {}

std::vector<std::size_t> Loops::in_line(const Fault& fault) const {
    std::vector<std::size_t> edges;
    for (const electrics::Change& change : changes(fault, assembly_)) {
        if (is_of_a_line(assembly_.roles[change.edge].kind)) edges.push_back(change.edge);
    }
    return edges;
}

bool Loops::quiet(const Fault& fault) const {
    const auto edges = in_line(fault);
    return !edges.empty() && !cuts_.part(edges);
}

bool Loops::part_together(const Fault& one, const Fault& other) const {
    auto edges = in_line(one);
    for (const std::size_t edge : in_line(other)) {
        if (std::find(edges.begin(), edges.end(), edge) == edges.end()) edges.push_back(edge);
    }
    return cuts_.part(edges);
}

}  // namespace halfsplit::diagnosis
