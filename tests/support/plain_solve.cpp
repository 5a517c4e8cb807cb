#include "support/plain_solve.hpp"

#include <cmath>
#include <limits>
#include <vector>

namespace halfsplit::test {

namespace {

using electrics::Circuit;
using electrics::Node;
using Real = long double;

// Nodes that hang together with `start`.
std::vector<Node> part_of(const Circuit& circuit, Node start) {
    std::vector<char> reached(circuit.nodes, 0);
    reached[start] = 1;
    for (bool again = true; again;) {
        again = false;
        for (const auto& edge : circuit.edges) {
            if (!std::isfinite(edge.ohm) || reached[edge.from] == reached[edge.to]) continue;
            reached[edge.from] = reached[edge.to] = 1;
            again = true;
        }
    }
    std::vector<Node> nodes;
    for (Node node = 0; node < circuit.nodes; ++node) {
        if (reached[node] != 0) nodes.push_back(node);
    }
    return nodes;
}

// Removes one node by the star-mesh rule: no subtraction, so no loss of digits.
void eliminate(std::vector<std::vector<Real>>& siemens, std::size_t gone) {
    Real sum = 0;
    for (std::size_t i = 0; i < siemens.size(); ++i) sum += siemens[gone][i];
    if (sum > 0) {
        for (std::size_t i = 0; i < siemens.size(); ++i) {
            for (std::size_t k = 0; k < siemens.size(); ++k) {
                if (i != k && i != gone && k != gone)
                    siemens[i][k] += siemens[gone][i] * siemens[gone][k] / sum;
            }
        }
    }
    for (std::size_t i = 0; i < siemens.size(); ++i) siemens[gone][i] = siemens[i][gone] = 0;
}

}  // namespace

double plain_resistance(const Circuit& circuit, Node red, Node black) {
    if (red == black) return 0;
    const std::vector<Node> nodes = part_of(circuit, red);
    std::vector<std::size_t> place(circuit.nodes, nodes.size());
    for (std::size_t i = 0; i < nodes.size(); ++i) place[nodes[i]] = i;
    if (place[black] == nodes.size()) return std::numeric_limits<double>::infinity();
    std::vector<std::vector<Real>> siemens(nodes.size(), std::vector<Real>(nodes.size(), 0));
    for (const auto& edge : circuit.edges) {
        const std::size_t from = place[edge.from];
        const std::size_t to = place[edge.to];
        if (!std::isfinite(edge.ohm) || from == to || from == nodes.size()) continue;
        siemens[from][to] += 1 / static_cast<Real>(edge.ohm);
        siemens[to][from] += 1 / static_cast<Real>(edge.ohm);
    }
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        if (nodes[i] != red && nodes[i] != black) eliminate(siemens, i);
    }
    return static_cast<double>(1 / siemens[place[red]][place[black]]);
}

}  // namespace halfsplit::test
