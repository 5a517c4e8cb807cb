#include "halfsplit/electrics/solver.hpp"

#include "halfsplit/electrics/graph.hpp"

#include <Eigen/Dense>
#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace halfsplit::electrics {

namespace {

using Real = long double;
using Vector = Eigen::Matrix<Real, Eigen::Dynamic, 1>;
using Matrix = Eigen::Matrix<Real, Eigen::Dynamic, Eigen::Dynamic>;
using Sparse = Eigen::SparseMatrix<Real>;

// Up to here the whole inverse is kept: a few hundred kilobytes that make every later reading a handful of
// look-ups.
constexpr std::size_t small_circuit = 400;

bool present(double ohm) {
    return std::isfinite(ohm);
}

Real conductance(double ohm) {
    return present(ohm) ? Real{1} / static_cast<Real>(ohm) : Real{0};
}

void require_sound(const Circuit& circuit) {
    for (const Edge& edge : circuit.edges) {
        if (edge.from >= circuit.nodes || edge.to >= circuit.nodes) {
            throw std::invalid_argument("circuit: an edge ends at a node that is not there");
        }
        if (!(edge.ohm > 0)) throw std::invalid_argument("circuit: a resistance must be above 0 ohm");
    }
}

}  // namespace

struct Solver::Implementation {
    Circuit circuit;
    Graph graph;
    std::vector<char> conducts;
    std::vector<std::size_t> component;  // by node, of the circuit as it stands
    std::vector<Eigen::Index> unknown;   // by node: row in the system, or -1 where held at zero
    Eigen::SimplicialLDLT<Sparse> factor;
    Matrix inverse;  // rows and columns by unknown; empty for a large circuit

    explicit Implementation(Circuit given) : circuit(std::move(given)), graph(circuit) {
        conducts.resize(circuit.edges.size());
        for (std::size_t e = 0; e < circuit.edges.size(); ++e)
            conducts[e] = present(circuit.edges[e].ohm) ? 1 : 0;
        component = graph.components(conducts);
        number_unknowns();
        factorise();
    }

    // The first node of each connected part is held at zero, or the system would have no one solution.
    void number_unknowns() {
        std::vector<char> held(circuit.nodes, 0);
        unknown.assign(circuit.nodes, -1);
        Eigen::Index next = 0;
        for (Node node = 0; node < circuit.nodes; ++node) {
            if (held[component[node]] == 0) {
                held[component[node]] = 1;
            } else {
                unknown[node] = next++;
            }
        }
    }

    Eigen::Index unknowns() const {
        return unknown.empty() ? 0 : *std::max_element(unknown.begin(), unknown.end()) + 1;
    }

    void factorise() {
        std::vector<Eigen::Triplet<Real>> entries;
        entries.reserve(circuit.edges.size() * 4);
        for (const Edge& edge : circuit.edges) {
            if (!present(edge.ohm) || edge.from == edge.to) continue;
            const Real siemens = conductance(edge.ohm);
            const Eigen::Index from = unknown[edge.from];
            const Eigen::Index to = unknown[edge.to];
            if (from >= 0) entries.emplace_back(from, from, siemens);
            if (to >= 0) entries.emplace_back(to, to, siemens);
            if (from >= 0 && to >= 0) {
                entries.emplace_back(from, to, -siemens);
                entries.emplace_back(to, from, -siemens);
            }
        }
        const Eigen::Index size = unknowns();
        Sparse matrix(size, size);
        matrix.setFromTriplets(entries.begin(), entries.end());
        if (size == 0) return;
        factor.compute(matrix);
        if (factor.info() != Eigen::Success) throw std::runtime_error("circuit: the factorisation failed");
        if (circuit.nodes <= small_circuit) inverse = factor.solve(Matrix::Identity(size, size));
    }

    // Potential of every unknown for one ampere in at red and out at black.
    Vector potentials(Tips tips) const {
        const Eigen::Index size = unknowns();
        Vector result = Vector::Zero(size);
        if (inverse.size() > 0) {
            if (unknown[tips.red] >= 0) result += inverse.col(unknown[tips.red]);
            if (unknown[tips.black] >= 0) result -= inverse.col(unknown[tips.black]);
            return result;
        }
        if (size == 0) return result;
        if (unknown[tips.red] >= 0) result[unknown[tips.red]] += 1;
        if (unknown[tips.black] >= 0) result[unknown[tips.black]] -= 1;
        return factor.solve(result);
    }

    Real at(const Vector& potential, Node node) const {
        return unknown[node] >= 0 ? potential[unknown[node]] : Real{0};
    }
    Real across(const Vector& potential, Node from, Node to) const {
        return at(potential, from) - at(potential, to);
    }

    // Voltage from `from` to `to` for one ampere between the tips, read from the inverse alone.
    Real across(Tips tips, Node from, Node to) const {
        const auto entry = [this](Node row, Node column) {
            return unknown[row] >= 0 && unknown[column] >= 0 ? inverse(unknown[row], unknown[column])
                                                             : Real{0};
        };
        return entry(from, tips.red) - entry(from, tips.black) - entry(to, tips.red) + entry(to, tips.black);
    }
};

Solver::Solver(Circuit circuit) {
    require_sound(circuit);
    implementation_ = std::make_unique<Implementation>(std::move(circuit));
}
Solver::~Solver() = default;
Solver::Solver(Solver&&) noexcept = default;
Solver& Solver::operator=(Solver&&) noexcept = default;

const Circuit& Solver::circuit() const {
    return implementation_->circuit;
}

double Solver::resistance(Tips tips) const {
    return resistance(tips, {});
}

double Solver::resistance(Tips tips, const std::vector<Change>& changes) const {
    return resistances({tips}, changes).front();
}

namespace {

Circuit changed(const Circuit& circuit, const std::vector<Change>& changes) {
    Circuit result = circuit;
    for (const Change& change : changes) result.edges[change.edge].ohm = change.ohm;
    return result;
}

}  // namespace

// A list of changes made ready for any pair of tips.
class Solver::Update {
  public:
    Update(const Implementation& base, const std::vector<Change>& changes) : base_(base) {
        if (changes.empty()) {
            component_ = base.component;
            return;
        }
        sort_out(changes);
        if (!joins_components_) prepare_core();
    }

    // An edge now joins parts that were apart: the factorisation does not know how.
    bool joins_components() const { return joins_components_; }

    double resistance(Tips tips) const {
        if (tips.red == tips.black) return 0;
        if (component_[tips.red] != component_[tips.black]) return open_circuit;
        if (base_.inverse.size() > 0) {
            return corrected(base_.across(tips, tips.red, tips.black),
                             [&](const Edge& edge) { return base_.across(tips, edge.from, edge.to); });
        }
        const Vector potential = base_.potentials(tips);
        return corrected(base_.across(potential, tips.red, tips.black),
                         [&](const Edge& edge) { return base_.across(potential, edge.from, edge.to); });
    }

  private:
    const Edge& edge_of(Eigen::Index i) const { return base_.circuit.edges[effective_[i].edge]; }

    // Keeps the changes that can alter a reading between tips that still hang together.
    void sort_out(const std::vector<Change>& changes) {
        std::vector<char> conducts = base_.conducts;
        for (const Change& change : changes) {
            const Edge& edge = base_.circuit.edges[change.edge];
            if (!present(change.ohm) || change.ohm == edge.ohm) continue;
            conducts[change.edge] = 1;
            effective_.push_back(change);
            if (base_.component[edge.from] != base_.component[edge.to]) joins_components_ = true;
        }
        for (const Change& change : changes) {
            if (present(change.ohm) || conducts[change.edge] == 0) continue;
            conducts[change.edge] = 0;
            const Edge& edge = base_.circuit.edges[change.edge];
            // A bridge carries nothing between tips on one side of it: leaving it in changes no reading.
            if (base_.graph.connected(edge.from, edge.to, conducts)) effective_.push_back(change);
        }
        component_ = base_.graph.components(conducts);
    }

    // Di + A'Gi A
    void prepare_core() {
        const auto count = static_cast<Eigen::Index>(effective_.size());
        core_.resize(count, count);
        for (Eigen::Index column = 0; column < count; ++column) {
            const Tips ends{edge_of(column).from, edge_of(column).to};
            const Vector potential = base_.inverse.size() > 0 ? Vector() : base_.potentials(ends);
            for (Eigen::Index row = 0; row < count; ++row) {
                const Edge& edge = edge_of(row);
                core_(row, column) = base_.inverse.size() > 0 ? base_.across(ends, edge.from, edge.to)
                                                              : base_.across(potential, edge.from, edge.to);
            }
            core_(column, column) +=
                Real{1} / (conductance(effective_[column].ohm) - conductance(edge_of(column).ohm));
        }
        if (count > 1) factor_.compute(core_);
    }

    template <typename Across>
    double corrected(Real ohm, Across across_edge) const {
        const auto count = static_cast<Eigen::Index>(effective_.size());
        if (count == 0) return static_cast<double>(ohm);
        if (count == 1) {
            const Real volt = across_edge(edge_of(0));
            return static_cast<double>(ohm - volt * volt / core_(0, 0));
        }
        Vector across(count);
        for (Eigen::Index i = 0; i < count; ++i) across[i] = across_edge(edge_of(i));
        return static_cast<double>(ohm - across.dot(factor_.solve(across)));
    }

    const Implementation& base_;
    std::vector<Change> effective_;
    std::vector<std::size_t> component_;  // by node, after all changes
    bool joins_components_ = false;
    Matrix core_;
    Eigen::PartialPivLU<Matrix> factor_;
};

std::vector<double> Solver::resistances(const std::vector<Tips>& tips,
                                        const std::vector<Change>& changes) const {
    const Update update(*implementation_, changes);
    if (update.joins_components()) {
        return Solver(changed(implementation_->circuit, changes)).resistances(tips, {});
    }
    std::vector<double> result;
    result.reserve(tips.size());
    for (const Tips& pair : tips) result.push_back(update.resistance(pair));
    return result;
}

}  // namespace halfsplit::electrics
