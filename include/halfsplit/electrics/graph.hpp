// Connectivity of a circuit, with some edges taken as other than they are. Each query is linear in nodes and
// edges.
#pragma once

#include "halfsplit/electrics/circuit.hpp"

#include <vector>

namespace halfsplit::electrics {

// Edges by node, laid out once. `conducts[e]` says whether edge e is there; callers keep their own copy to
// change.
class Graph {
  public:
    explicit Graph(const Circuit& circuit);
    // Component number of each node, from 0.
    std::vector<std::size_t> components(const std::vector<char>& conducts) const;
    // By node: whether it hangs together with one of `starts`.
    std::vector<char> reached(const std::vector<Node>& starts, const std::vector<char>& conducts) const;

    // One step of a walk that reaches each node once.
    struct Step {
        Node node = 0, from = 0;
        std::size_t edge = none;  // none where a component is entered
        static constexpr std::size_t none = static_cast<std::size_t>(-1);
    };
    // Through every component; each node after the one it is reached from.
    std::vector<Step> walk(const std::vector<char>& conducts) const;

  private:
    // Marks with `mark` all that hangs together with `start`.
    void flood(Node start, std::size_t mark, std::vector<std::size_t>& marks,
               const std::vector<char>& conducts) const;

    struct Neighbour {
        Node node;
        std::size_t edge;
    };
    std::vector<std::size_t> first_;  // by node: start in neighbours_; one more at the end
    std::vector<Neighbour> neighbours_;
};

}  // namespace halfsplit::electrics
