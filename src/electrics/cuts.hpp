// Whether opening some edges can take apart what hangs together, without a walk of the graph.
//
// Each edge outside a spanning forest has a label of 64 random bits, each edge of the forest the
// exclusive-or of the labels of all edges that close a loop through it. Over any cut the labels cancel, so
// edges whose labels are independent hold no cut: that answer is exact. Labels that cancel by chance (2^-64)
// only cost a walk. (Cycle space sampling: Pritchard and Thurimella, "Fast computation of small cuts via
// cycle space sampling", ACM Transactions on Algorithms 7 (2011), from memory.)
#pragma once

#include "halfsplit/electrics/circuit.hpp"
#include "halfsplit/electrics/graph.hpp"

#include <cstdint>
#include <vector>

namespace halfsplit::electrics {

class Cuts {
  public:
    // Linear in nodes and edges.
    Cuts(const Circuit& circuit, const Graph& graph, const std::vector<char>& conducts);

    // `edges` conduct, each named once. False: all that hung together still does when they are opened. True:
    // some of it no longer does. Quadratic in the edges named.
    bool part(const std::vector<std::size_t>& edges) const;

    // Whether opening the edge alone takes something apart: no loop leads through it, so that it carries
    // nothing between nodes on one side of it.
    bool is_bridge(std::size_t edge) const { return label_[edge] == 0; }
    // Of a bridge, and two nodes that hang together: whether they no longer do when it is opened.
    bool separates(std::size_t bridge, Node one, Node other) const {
        return is_beyond(bridge, one) != is_beyond(bridge, other);
    }

  private:
    // Nodes are ordered so that those beyond an edge of the forest follow one another.
    struct Stretch {
        std::size_t first = 0, count = 0;
    };
    bool is_beyond(std::size_t edge, Node node) const {
        return place_[node] - beyond_[edge].first < beyond_[edge].count;
    }
    void put_in_order(const std::vector<Graph::Step>& steps);

    std::vector<std::uint64_t> label_;  // by edge
    std::vector<Stretch> beyond_;       // by edge of the forest: places of the nodes reached through it
    std::vector<std::size_t> place_;    // by node
};

}  // namespace halfsplit::electrics
