// A circuit's conductance matrix, factorised once in extended precision: what the solver and the operating
// point have in common.
#pragma once

#include "halfsplit/electrics/circuit.hpp"
#include "halfsplit/electrics/graph.hpp"

#include <Eigen/Dense>
#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>

#include "electrics/cuts.hpp"

#include <vector>

namespace halfsplit::electrics {

using Real = long double;
using Vector = Eigen::Matrix<Real, Eigen::Dynamic, 1>;
using Matrix = Eigen::Matrix<Real, Eigen::Dynamic, Eigen::Dynamic>;
using Sparse = Eigen::SparseMatrix<Real>;

Real conductance(double ohm);

// By the library's own kind of index, which has a sign.
template <typename Item>
const Item& item(const std::vector<Item>& items, Eigen::Index i) {
    return items[static_cast<std::size_t>(i)];
}

// Which node of each connected part is held at zero, or the system would have no one solution. The one that
// most conductance ends at: next to it all other nodes of a bus stand at few ohms, so that the differences
// between them keep their digits; held at ground, they would all stand at the kilohms of the transceivers.
// The first: where that is what voltages are asked against.
enum class Hold { MostConductance, First };

class Factorised {
  public:
    // Throws std::invalid_argument for an edge whose end is no node or whose resistance is not positive.
    explicit Factorised(Circuit circuit, Hold hold = Hold::MostConductance);

    const Circuit& circuit() const { return circuit_; }
    const Graph& graph() const { return graph_; }
    const std::vector<char>& conducts() const { return conducts_; }            // by edge
    const std::vector<std::size_t>& components() const { return component_; }  // by node
    const Cuts& cuts() const { return cuts_; }

    // Whether the whole inverse is kept, so that one entry is a look-up.
    bool has_inverse() const { return inverse_.size() > 0; }

    // Potentials by unknown for the given currents by unknown.
    Vector solve(const Vector& currents) const;
    // The same for one ampere in at red and out at black.
    Vector potentials(Tips tips) const;
    // Row of a node in the system, or -1 where it is held at zero.
    Eigen::Index unknown(Node node) const { return unknown_[node]; }
    Eigen::Index unknowns() const { return unknowns_; }

    Real at(const Vector& potential, Node node) const {
        return unknown_[node] >= 0 ? potential[unknown_[node]] : Real{0};
    }
    Real across(const Vector& potential, Node from, Node to) const {
        return at(potential, from) - at(potential, to);
    }
    // Voltage from `from` to `to` for one ampere between the tips, read from the inverse alone.
    Real across(Tips tips, Node from, Node to) const;

  private:
    std::vector<char> held_nodes(Hold hold) const;
    void number_unknowns(Hold hold);
    void factorise();
    Real entry(Node row, Node column) const;

    Circuit circuit_;
    Graph graph_;
    std::vector<char> conducts_;
    std::vector<std::size_t> component_;
    Cuts cuts_;
    std::vector<Eigen::Index> unknown_;
    Eigen::Index unknowns_ = 0;
    Eigen::SimplicialLDLT<Sparse> factor_;
    Matrix inverse_;  // rows and columns by unknown; empty for a large circuit
};

}  // namespace halfsplit::electrics
