#include "electrics/cuts.hpp"

#include <algorithm>

namespace halfsplit::electrics {

namespace {

// splitmix64 (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014): the same labels
// everywhere.
std::uint64_t scrambled(std::uint64_t number) {
    std::uint64_t z = (number + 1) * 0x9E3779B97F4A7C15ULL;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31U);
}

}  // namespace

Cuts::Cuts(const Circuit& circuit, const Graph& graph, const std::vector<char>& conducts)
    : label_(circuit.edges.size(), 0), beyond_(circuit.edges.size()), place_(circuit.nodes, 0) {
    const std::vector<Graph::Step> steps = graph.walk(conducts);
    std::vector<char> in_forest(circuit.edges.size(), 0);
    for (const Graph::Step& step : steps) {
        if (step.edge != Graph::Step::none) in_forest[step.edge] = 1;
    }
    std::vector<std::uint64_t> below(circuit.nodes,
                                     0);  // loops that end in the part reached by way of a node
    for (std::size_t e = 0; e < circuit.edges.size(); ++e) {
        if (conducts[e] == 0 || in_forest[e] != 0) continue;
        label_[e] = scrambled(e);
        below[circuit.edges[e].from] ^= label_[e];
        below[circuit.edges[e].to] ^= label_[e];
    }
    for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
        if (step->edge == Graph::Step::none) continue;
        label_[step->edge] = below[step->node];
        below[step->from] ^= below[step->node];
    }
    put_in_order(steps);
}

void Cuts::put_in_order(const std::vector<Graph::Step>& steps) {
    std::vector<std::size_t> size(place_.size(), 1);
    for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
        if (step->edge != Graph::Step::none) size[step->from] += size[step->node];
    }
    std::vector<std::size_t> next(place_.size(), 0);  // by node: place of what is reached from it next
    std::size_t next_part = 0;
    for (const Graph::Step& step : steps) {
        std::size_t& first = step.edge == Graph::Step::none ? next_part : next[step.from];
        place_[step.node] = first;
        next[step.node] = first + 1;
        if (step.edge != Graph::Step::none) beyond_[step.edge] = {first, size[step.node]};
        first += size[step.node];
    }
}

bool Cuts::part(const std::vector<std::size_t>& edges) const {
    std::vector<std::uint64_t> independent;
    for (const std::size_t edge : edges) {
        std::uint64_t label = label_[edge];
        for (const std::uint64_t other : independent) label = std::min(label, label ^ other);
        if (label == 0) return true;
        independent.push_back(label);
    }
    return false;
}

}  // namespace halfsplit::electrics
