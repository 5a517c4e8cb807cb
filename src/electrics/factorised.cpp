#include "electrics/factorised.hpp"

#include <stdexcept>
#include <utility>

namespace halfsplit::electrics {

namespace {

// Up to here the whole inverse is kept (at most 64 MB) and makes every later reading a handful of look-ups.
constexpr std::size_t small_circuit = 2000;

// Before anything is laid out by node.
Circuit sound(Circuit circuit) {
    for (const Edge& edge : circuit.edges) {
        if (edge.from >= circuit.nodes || edge.to >= circuit.nodes) {
            throw std::invalid_argument("circuit: an edge ends at a node that is not there");
        }
        if (!(edge.ohm > 0)) throw std::invalid_argument("circuit: a resistance must be above 0 ohm");
    }
    return circuit;
}

}  // namespace

Real conductance(double ohm) {
    return is_present(ohm) ? Real{1} / static_cast<Real>(ohm) : Real{0};
}

namespace {

std::vector<char> conducting(const Circuit& circuit) {
    std::vector<char> result(circuit.edges.size());
    for (std::size_t e = 0; e < result.size(); ++e) result[e] = is_present(circuit.edges[e].ohm) ? 1 : 0;
    return result;
}

}  // namespace

Factorised::Factorised(Circuit circuit, Hold hold)
    : circuit_(sound(std::move(circuit))),
      graph_(circuit_),
      conducts_(conducting(circuit_)),
      component_(graph_.components(conducts_)),
      cuts_(circuit_, graph_, conducts_) {
    number_unknowns(hold);
    factorise();
}

std::vector<char> Factorised::held_nodes(Hold hold) const {
    std::vector<Real> siemens(circuit_.nodes, 0);
    for (const Edge& edge : circuit_.edges) {
        if (edge.from == edge.to) continue;
        siemens[edge.from] += conductance(edge.ohm);
        siemens[edge.to] += conductance(edge.ohm);
    }
    std::vector<char> held(circuit_.nodes, 0);
    std::vector<Node> best(circuit_.nodes, circuit_.nodes);  // by component
    for (Node node = 0; node < circuit_.nodes; ++node) {
        Node& own = best[component_[node]];
        const bool better =
            hold == Hold::MostConductance && own < circuit_.nodes && siemens[node] > siemens[own];
        if (own == circuit_.nodes || better) own = node;
    }
    for (const Node node : best) {
        if (node < circuit_.nodes) held[node] = 1;
    }
    return held;
}

void Factorised::number_unknowns(Hold hold) {
    const std::vector<char> held = held_nodes(hold);
    unknown_.assign(circuit_.nodes, -1);
    for (Node node = 0; node < circuit_.nodes; ++node) {
        if (held[node] == 0) unknown_[node] = unknowns_++;
    }
}

void Factorised::factorise() {
    std::vector<Eigen::Triplet<Real>> entries;
    entries.reserve(circuit_.edges.size() * 4);
    for (const Edge& edge : circuit_.edges) {
        if (!is_present(edge.ohm) || edge.from == edge.to) continue;
        const Real siemens = conductance(edge.ohm);
        const Eigen::Index from = unknown_[edge.from];
        const Eigen::Index to = unknown_[edge.to];
        if (from >= 0) entries.emplace_back(from, from, siemens);
        if (to >= 0) entries.emplace_back(to, to, siemens);
        if (from >= 0 && to >= 0) {
            entries.emplace_back(from, to, -siemens);
            entries.emplace_back(to, from, -siemens);
        }
    }
    const Eigen::Index size = unknowns();
    if (size == 0) return;
    Sparse matrix(size, size);
    matrix.setFromTriplets(entries.begin(), entries.end());
    factor_.compute(matrix);
    if (factor_.info() != Eigen::Success) throw std::runtime_error("circuit: the factorisation failed");
    if (circuit_.nodes <= small_circuit) inverse_ = factor_.solve(Matrix::Identity(size, size));
}

Vector Factorised::solve(const Vector& currents) const {
    if (currents.size() == 0) return currents;
    return factor_.solve(currents);
}

Vector Factorised::potentials(Tips tips) const {
    Vector currents = Vector::Zero(unknowns());
    if (unknown_[tips.red] >= 0) currents[unknown_[tips.red]] += 1;
    if (unknown_[tips.black] >= 0) currents[unknown_[tips.black]] -= 1;
    return solve(currents);
}

Real Factorised::entry(Node row, Node column) const {
    return unknown_[row] >= 0 && unknown_[column] >= 0 ? inverse_(unknown_[row], unknown_[column]) : Real{0};
}

Real Factorised::across(Tips tips, Node from, Node to) const {
    return entry(from, tips.red) - entry(from, tips.black) - entry(to, tips.red) + entry(to, tips.black);
}

}  // namespace halfsplit::electrics
