#include "halfsplit/electrics/operating_point.hpp"

#include "electrics/factorised.hpp"
#include "electrics/update.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace halfsplit::electrics {

namespace {

// The first node of the circuit with all held nodes made one; the factorisation holds it at zero.
constexpr Node reference = 0;

void require_sound(const Circuit& circuit, const std::vector<Held>& held) {
    std::vector<char> seen(circuit.nodes, 0);
    for (const Held& one : held) {
        if (one.node >= circuit.nodes) throw std::invalid_argument("circuit: a held node is not there");
        if (seen[one.node] != 0) throw std::invalid_argument("circuit: a node is held twice");
        if (!std::isfinite(one.volt)) throw std::invalid_argument("circuit: a held voltage must be finite");
        seen[one.node] = 1;
    }
    for (const Edge& edge : circuit.edges) {
        if (edge.from >= circuit.nodes || edge.to >= circuit.nodes) {
            throw std::invalid_argument("circuit: an edge ends at a node that is not there");
        }
    }
}

// Where each node is once all held ones are the reference.
std::vector<Node> merged_places(std::size_t nodes, const std::vector<Held>& held) {
    std::vector<Node> place(nodes, reference + 1);
    for (const Held& one : held) place[one.node] = reference;
    Node next = reference + 1;
    for (Node& node : place) {
        if (node != reference) node = next++;
    }
    return place;
}

Circuit merged(const Circuit& circuit, const std::vector<Node>& place) {
    Circuit result{1, {}};
    for (const Node node : place) result.nodes = std::max(result.nodes, node + 1);
    result.edges.reserve(circuit.edges.size());
    for (const Edge& edge : circuit.edges)
        result.edges.push_back({place[edge.from], place[edge.to], edge.ohm});
    return result;
}

}  // namespace

struct OperatingPoint::Implementation {
    Circuit circuit;  // as given
    std::vector<Held> held;
    std::vector<Node> place;  // by node of the given circuit: its node in `base`
    std::vector<Real> level;  // by node of the given circuit: the volt it is held at, else 0
    Factorised base;
    Vector rest;  // volts by unknown, nothing changed

    Implementation(Circuit given, std::vector<Held> sources)
        : circuit(std::move(given)),
          held(std::move(sources)),
          place(merged_places(circuit.nodes, held)),
          level(circuit.nodes, 0),
          base(merged(circuit, place), Hold::First) {
        for (const Held& one : held) level[one.node] = one.volt;
        rest = base.solve(source_currents());
    }

    // What stands in series with an edge because its ends are held.
    Real source_of(std::size_t edge) const {
        return level[circuit.edges[edge].from] - level[circuit.edges[edge].to];
    }

    Vector source_currents() const {
        Vector result = Vector::Zero(base.unknowns());
        for (std::size_t e = 0; e < circuit.edges.size(); ++e) {
            const Edge& edge = base.circuit().edges[e];
            const Real ampere = conductance(edge.ohm) * source_of(e);
            if (base.unknown(edge.from) >= 0) result[base.unknown(edge.from)] -= ampere;
            if (base.unknown(edge.to) >= 0) result[base.unknown(edge.to)] += ampere;
        }
        return result;
    }

    // Across each changed edge before the changes, by effective change.
    Vector at_rest(const Update& update) const {
        Vector result(static_cast<Eigen::Index>(update.effective().size()));
        for (std::size_t i = 0; i < update.effective().size(); ++i) {
            const std::size_t e = update.effective()[i].edge;
            const Edge& edge = base.circuit().edges[e];
            result[static_cast<Eigen::Index>(i)] = base.across(rest, edge.from, edge.to) + source_of(e);
        }
        return result;
    }

    // `weights`: the update's solution for at_rest().
    double volt(Node node, const Update& update, const Vector& weights) const {
        const Node here = place[node];
        if (here == reference) return static_cast<double>(level[node]);
        if (!update.connected(here, reference)) return floating;
        const Tips tips{here, reference};
        const Vector potential = base.has_inverse() ? Vector() : base.potentials(tips);
        Real volt = base.at(rest, here);
        for (std::size_t i = 0; i < update.effective().size(); ++i) {
            const Edge& edge = base.circuit().edges[update.effective()[i].edge];
            const Real for_one_ampere = base.has_inverse() ? base.across(tips, edge.from, edge.to)
                                                           : base.across(potential, edge.from, edge.to);
            volt -= for_one_ampere * weights[static_cast<Eigen::Index>(i)];
        }
        return static_cast<double>(volt);
    }
};

OperatingPoint::OperatingPoint(Circuit circuit, std::vector<Held> held) {
    require_sound(circuit, held);
    implementation_ = std::make_unique<Implementation>(std::move(circuit), std::move(held));
}
OperatingPoint::~OperatingPoint() = default;
OperatingPoint::OperatingPoint(OperatingPoint&&) noexcept = default;
OperatingPoint& OperatingPoint::operator=(OperatingPoint&&) noexcept = default;

std::vector<double> OperatingPoint::volts(const std::vector<Node>& nodes,
                                          const std::vector<Change>& changes) const {
    const Update update(implementation_->base, changes, Core::Solved);
    if (update.joins_components()) {
        return OperatingPoint(changed(implementation_->circuit, changes), implementation_->held).volts(nodes);
    }
    const Vector weights = update.solve(implementation_->at_rest(update));
    std::vector<double> result;
    result.reserve(nodes.size());
    for (const Node node : nodes) result.push_back(implementation_->volt(node, update, weights));
    return result;
}

}  // namespace halfsplit::electrics
