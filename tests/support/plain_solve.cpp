#include "support/plain_solve.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>
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

// Square, symmetric.
struct Matrix {
    std::size_t size = 0;
    std::vector<Real> values = std::vector<Real>(size * size, 0);

    Real& at(std::size_t row, std::size_t column) { return values[row * size + column]; }
    Real at(std::size_t row, std::size_t column) const { return values[row * size + column]; }
};

// Removes one node by the star-mesh rule: no subtraction, so no loss of digits.
void eliminate(Matrix& siemens, std::size_t gone) {
    std::vector<std::pair<std::size_t, Real>> neighbours;
    Real sum = 0;
    for (std::size_t i = 0; i < siemens.size; ++i) {
        const Real own = siemens.at(gone, i);
        if (own == 0) continue;
        neighbours.emplace_back(i, own);
        sum += own;
        siemens.at(gone, i) = siemens.at(i, gone) = 0;
    }
    for (const auto& [i, own] : neighbours) {
        const Real share = own / sum;
        for (const auto& [k, other] : neighbours) {
            if (i != k) siemens.at(i, k) += share * other;
        }
    }
}

}  // namespace

double plain_resistance(const Circuit& circuit, Node red, Node black) {
    if (red == black) return 0;
    const std::vector<Node> nodes = part_of(circuit, red);
    std::vector<std::size_t> place(circuit.nodes, nodes.size());
    for (std::size_t i = 0; i < nodes.size(); ++i) place[nodes[i]] = i;
    if (place[black] == nodes.size()) return std::numeric_limits<double>::infinity();
    Matrix siemens{nodes.size()};
    for (const auto& edge : circuit.edges) {
        const std::size_t from = place[edge.from];
        const std::size_t to = place[edge.to];
        if (!std::isfinite(edge.ohm) || from == to || from == nodes.size()) continue;
        siemens.at(from, to) += 1 / static_cast<Real>(edge.ohm);
        siemens.at(to, from) += 1 / static_cast<Real>(edge.ohm);
    }
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        if (nodes[i] != red && nodes[i] != black) eliminate(siemens, i);
    }
    return static_cast<double>(1 / siemens.at(place[red], place[black]));
}

namespace {

// Of the nodes that have a tip, and none other.
Matrix reduced(const Circuit& circuit, const std::vector<std::size_t>& place, std::size_t tipped) {
    Matrix siemens{circuit.nodes};
    for (const auto& edge : circuit.edges) {
        if (!std::isfinite(edge.ohm) || edge.from == edge.to) continue;
        siemens.at(edge.from, edge.to) += 1 / static_cast<Real>(edge.ohm);
        siemens.at(edge.to, edge.from) += 1 / static_cast<Real>(edge.ohm);
    }
    // Ground and supply, the first, have the most neighbours: last, so that fewer meshes arise.
    for (Node node = circuit.nodes; node-- > 0;) {
        if (place[node] == tipped) eliminate(siemens, node);
    }
    Matrix left{tipped};
    for (Node from = 0; from < circuit.nodes; ++from) {
        for (Node to = 0; to < circuit.nodes; ++to) {
            if (place[from] != tipped && place[to] != tipped)
                left.at(place[from], place[to]) = siemens.at(from, to);
        }
    }
    return left;
}

}  // namespace

std::vector<double> plain_resistances(const Circuit& circuit, const std::vector<electrics::Tips>& tips) {
    std::vector<Node> tipped;
    for (const electrics::Tips& pair : tips) tipped.insert(tipped.end(), {pair.red, pair.black});
    std::sort(tipped.begin(), tipped.end());
    tipped.erase(std::unique(tipped.begin(), tipped.end()), tipped.end());
    std::vector<std::size_t> place(circuit.nodes, tipped.size());
    for (std::size_t i = 0; i < tipped.size(); ++i) place[tipped[i]] = i;
    const Matrix siemens = reduced(circuit, place, tipped.size());

    std::vector<double> result;
    for (const electrics::Tips& pair : tips) {
        Matrix left = siemens;
        const std::size_t red = place[pair.red], black = place[pair.black];
        for (std::size_t i = 0; i < tipped.size(); ++i) {
            if (i != red && i != black) eliminate(left, i);
        }
        // 1 / 0 is infinity: nothing connects them.
        result.push_back(red == black ? 0 : static_cast<double>(1 / left.at(red, black)));
    }
    return result;
}

}  // namespace halfsplit::test
