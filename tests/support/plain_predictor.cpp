#include "support/plain_predictor.hpp"

#include "support/plain_solve.hpp"

#include <cmath>
#include <limits>
#include <set>

namespace halfsplit::test {

using namespace diagnosis;
using electrics::Assembly;
using electrics::Circuit;
using electrics::EdgeKind;

namespace {

// Edges whose ohms stray together, and how far: one standard deviation of the logarithm.
struct Straying {
    std::vector<std::size_t> edges;
    double relative = 0;
};

// 100 to 130 ohm where 120 are nominal (ISO 11898-2), even over that range: 30 / sqrt(12) / 120, rounded.
constexpr double terminator = 0.072;
// 10 to 100 kohm (ISO 11898-2), even over the logarithm: ln(10) / sqrt(12), rounded.
constexpr double transceivers = 0.66;

// Steps of the grid of ohms on which faults are listed: joints by five, shorts H to L by eight, others by
// twenty; a figure stands for half a step to either side, even over the logarithm.
double spread_of_ohms(Mode mode) {
    const auto even_over = [](double step) { return std::log(step) / std::sqrt(12.0); };
    switch (mode) {
        case Mode::BadJoint:
            return even_over(5);
        case Mode::ShortLines:
            return even_over(2.5 / 0.3);
        case Mode::ShortGround:
        case Mode::ShortSupply:
            return even_over(20);
        case Mode::ExtraTerminator:
            return terminator;
        default:
            return 0;
    }
}

Circuit scaled(Circuit circuit, const std::vector<std::size_t>& edges, double factor) {
    for (const std::size_t edge : edges) circuit.edges[edge].ohm *= factor;
    return circuit;
}

// Change of each resistance for a relative change of the edges' ohms.
std::vector<double> slope(const Circuit& circuit, const std::vector<electrics::Tips>& tips,
                          const std::vector<std::size_t>& edges, const std::vector<double>& ohms) {
    constexpr double step = 1e-7;
    std::vector<double> result = plain_resistances(scaled(circuit, edges, std::exp(step)), tips);
    for (std::size_t i = 0; i < tips.size(); ++i)
        result[i] = std::isfinite(result[i]) ? (result[i] - ohms[i]) / step : 0;
    return result;
}

electrics::Node node_of(const Assembly& assembly, const Contact& contact) {
    if (contact.kind == Contact::Kind::Ground) return assembly.ground;
    if (contact.kind == Contact::Kind::Supply) return assembly.supply;
    return assembly.node_of_terminal[contact.terminal];
}

// Each terminator by itself, the ohms of each fault, and all the rest together, which is transceivers but for
// milliohms.
std::vector<Straying> straying(const Assembly& assembly, const std::vector<Fault>& faults) {
    std::vector<Straying> result;
    for (std::size_t edge = 0; edge < assembly.roles.size(); ++edge) {
        if (assembly.roles[edge].kind == EdgeKind::Terminator) result.push_back({{edge}, terminator});
    }
    for (const Fault& fault : faults) {
        if (spread_of_ohms(fault.mode) == 0) continue;
        for (const electrics::Change& change : changes(fault, assembly))
            result.push_back({{change.edge}, spread_of_ohms(fault.mode)});
    }
    std::set<std::size_t> taken;
    for (const Straying& one : result) taken.insert(one.edges.begin(), one.edges.end());
    result.push_back({{}, transceivers});
    for (std::size_t edge = 0; edge < assembly.roles.size(); ++edge) {
        if (taken.count(edge) == 0) result.back().edges.push_back(edge);
    }
    return result;
}

Circuit with(const std::vector<Fault>& faults, const electrics::Apart& apart, const Assembly& assembly,
             const harness::Harness& harness) {
    Circuit circuit = assembly.circuit;
    for (const Fault& fault : faults) {
        for (const auto& change : changes(fault, assembly)) circuit.edges[change.edge].ohm = change.ohm;
    }
    for (const auto& change : electrics::taken_apart(assembly, harness, apart))
        circuit.edges[change.edge].ohm = change.ohm;
    return circuit;
}

}  // namespace

std::vector<Predicted> plain_figures(const harness::Harness& harness, const Assembly& assembly,
                                     const std::vector<Fault>& faults, const electrics::Apart& apart,
                                     const std::vector<Tips>& tips) {
    std::vector<electrics::Tips> nodes;
    std::vector<std::size_t> asked;
    for (std::size_t i = 0; i < tips.size(); ++i) {
        const electrics::Tips pair{node_of(assembly, tips[i].red), node_of(assembly, tips[i].black)};
        if (pair.red == harness::none || pair.black == harness::none) continue;
        nodes.push_back(pair);
        asked.push_back(i);
    }
    const Circuit circuit = with(faults, apart, assembly, harness);
    const auto ohms = plain_resistances(circuit, nodes);
    std::vector<double> variance(nodes.size(), 0);
    for (const Straying& one : straying(assembly, faults)) {
        const auto steep = slope(circuit, nodes, one.edges, ohms);
        for (std::size_t i = 0; i < nodes.size(); ++i) variance[i] += std::pow(one.relative * steep[i], 2);
    }
    // Not on the vehicle: no figure.
    std::vector<Predicted> result(tips.size(), {std::numeric_limits<double>::quiet_NaN(), 0});
    for (std::size_t i = 0; i < nodes.size(); ++i) result[asked[i]] = {ohms[i], std::sqrt(variance[i])};
    return result;
}

}  // namespace halfsplit::test
