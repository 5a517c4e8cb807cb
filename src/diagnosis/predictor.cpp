#include "halfsplit/diagnosis/predictor.hpp"

#include "halfsplit/electrics/setting.hpp"

#include "diagnosis/catalogue.hpp"
#include "diagnosis/ledger.hpp"
#include "diagnosis/remembered.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace halfsplit::diagnosis {

using electrics::Assembly;
using electrics::Change;
using harness::none;

namespace {

std::vector<std::size_t> edges_of_kind(const Assembly& assembly, electrics::EdgeKind kind) {
    std::vector<std::size_t> edges;
    for (std::size_t edge = 0; edge < assembly.roles.size(); ++edge) {
        if (assembly.roles[edge].kind == kind) edges.push_back(edge);
    }
    return edges;
}

}  // namespace

Predictor::Predictor(const harness::Harness& harness, harness::Index network)
    : harness_(harness),
      network_(network),
      variants_(harness::variants(harness)),
      remembered_(std::make_unique<Remembered>()),
      ledger_(std::make_unique<Ledger>()) {}

Predictor::~Predictor() = default;
Predictor::Predictor(Predictor&&) noexcept = default;

const PreparedCircuit& Predictor::circuit(std::size_t variant) {
    auto& prepared = circuits_[variant];
    if (!prepared) {
        Assembly assembly = electrics::assemble(harness_, network_, variants_[variant].present);
        std::vector<std::size_t> terminators = edges_of_kind(assembly, electrics::EdgeKind::Terminator);
        electrics::Solver solver(assembly.circuit);
        electrics::Graph graph(assembly.circuit);
        prepared = std::make_unique<PreparedCircuit>(PreparedCircuit{
            std::move(assembly), std::move(terminators), std::move(solver), std::move(graph)});
    }
    return *prepared;
}

const Catalogue& Predictor::catalogue(std::size_t variant) {
    auto& catalogue = catalogues_[variant];
    if (!catalogue) catalogue = std::make_unique<Catalogue>(harness_, circuit(variant).assembly);
    return *catalogue;
}

Reaches& Predictor::reaches(std::size_t variant) {
    const PreparedCircuit& prepared = circuit(variant);
    return reaches_.try_emplace(variant, prepared.assembly, prepared.graph).first->second;
}

std::vector<Change> Predictor::fault_changes(const Explanation& explanation, const Situation& situation) {
    const Assembly& assembly = circuit(explanation.variant).assembly;
    std::vector<Change> all;
    for (const Fault& fault : remaining(harness_, explanation, situation))
        electrics::merge(all, diagnosis::changes(fault, assembly));
    return all;
}

std::vector<Change> Predictor::changes(const Explanation& explanation, const Situation& situation) {
    std::vector<Change> all = fault_changes(explanation, situation);
    electrics::merge(
        all, electrics::taken_apart(circuit(explanation.variant).assembly, harness_, situation.apart));
    return all;
}

namespace {

electrics::Node node_of(const Contact& contact, const Assembly& assembly) {
    switch (contact.kind) {
        case Contact::Kind::Ground:
            return assembly.ground;
        case Contact::Kind::Supply:
            return assembly.supply;
        case Contact::Kind::Terminal:
            break;
    }
    return contact.terminal == none ? none : assembly.node_of_terminal[contact.terminal];
}

// The readings of which both tips are on the vehicle, as nodes.
struct Asked {
    std::vector<electrics::Tips> nodes;
    std::vector<std::size_t> index;  // into all readings

    Asked(const std::vector<Tips>& tips, const Assembly& assembly) {
        for (std::size_t i = 0; i < tips.size(); ++i) {
            const electrics::Node red = node_of(tips[i].red, assembly);
            const electrics::Node black = node_of(tips[i].black, assembly);
            if (red == none || black == none) continue;
            nodes.push_back({red, black});
            index.push_back(i);
        }
    }

    // By all readings; NaN for those that could not be asked.
    std::vector<double> filled(const std::vector<double>& ohms, std::size_t readings) const {
        std::vector<double> result(readings, std::numeric_limits<double>::quiet_NaN());
        for (std::size_t i = 0; i < index.size(); ++i) result[index[i]] = ohms[i];
        return result;
    }
};

}  // namespace

std::vector<double> Predictor::ohms(const Explanation& explanation, const Situation& situation,
                                    const std::vector<Tips>& tips) {
    const PreparedCircuit& prepared = circuit(explanation.variant);
    const Asked asked(tips, prepared.assembly);
    return asked.filled(prepared.solver.resistances(asked.nodes, changes(explanation, situation)),
                        tips.size());
}

std::vector<std::vector<double>> Predictor::ohms_of_each(const std::vector<const Explanation*>& explanations,
                                                         const Situation& situation,
                                                         const std::vector<Tips>& tips) {
    struct Prepared {
        Asked asked;
        electrics::Setting setting;
    };
    std::map<std::size_t, Prepared> by_variant;
    std::vector<std::vector<double>> result;
    result.reserve(explanations.size());
    for (const Explanation* explanation : explanations) {
        auto own = by_variant.find(explanation->variant);
        if (own == by_variant.end()) {
            const PreparedCircuit& prepared = circuit(explanation->variant);
            Asked asked(tips, prepared.assembly);
            electrics::Setting setting(prepared.solver,
                                       electrics::taken_apart(prepared.assembly, harness_, situation.apart),
                                       asked.nodes);
            own = by_variant.emplace(explanation->variant, Prepared{std::move(asked), std::move(setting)})
                      .first;
        }
        const auto& [asked, setting] = own->second;
        result.push_back(
            asked.filled(setting.resistances(fault_changes(*explanation, situation)), tips.size()));
    }
    return result;
}

namespace {

// Transceivers of 10 to 100 kohm where 40 are taken (ISO 11898-2), even over the logarithm, as its standard
// deviation; the makers of one vehicle's transceivers are few, so that they stray together.
constexpr double transceiver_spread = 0.66;

// What stands in neither terminators nor faults stands in transceivers: wires and contacts have milliohms.
double spread(const electrics::Portions& portions, std::size_t terminators,
              const std::vector<double>& ohm_spreads) {
    double variance = 0;
    double rest = portions.ohm;
    for (std::size_t i = 0; i < portions.of.size(); ++i) {
        const double relative = i < terminators ? terminator_spread : ohm_spreads[i - terminators];
        variance += std::pow(relative * portions.of[i], 2);
        rest -= portions.of[i];
    }
    return std::sqrt(variance + std::pow(transceiver_spread * std::max(rest, 0.0), 2));
}

}  // namespace

std::vector<Predicted> Predictor::figures(const Explanation& explanation, const Situation& situation,
                                          const std::vector<Tips>& tips) {
    const PreparedCircuit& prepared = circuit(explanation.variant);
    const Asked asked(tips, prepared.assembly);
    std::vector<std::size_t> edges = prepared.terminators;
    std::vector<double> ohm_spreads;
    for (const Fault& fault : remaining(harness_, explanation, situation)) {
        if (ohm_spread(fault.mode) == 0) continue;
        for (const Change& change : diagnosis::changes(fault, prepared.assembly)) {
            edges.push_back(change.edge);
            ohm_spreads.push_back(ohm_spread(fault.mode));
        }
    }
    const auto solved = prepared.solver.portions(asked.nodes, changes(explanation, situation), edges);
    std::vector<Predicted> result(tips.size(), {std::numeric_limits<double>::quiet_NaN(), 0});
    for (std::size_t i = 0; i < asked.index.size(); ++i) {
        result[asked.index[i]] = {
            solved[i].ohm,
            std::isfinite(solved[i].ohm) ? spread(solved[i], prepared.terminators.size(), ohm_spreads) : 0};
    }
    return result;
}

const PoweredCircuit& Predictor::powered(std::size_t variant, bool awake) {
    auto& prepared = powered_[{variant, awake}];
    if (!prepared) {
        const auto power = awake ? electrics::Power::Awake : electrics::Power::Asleep;
        Assembly assembly = electrics::assemble(harness_, network_, variants_[variant].present, power);
        electrics::OperatingPoint operating_point(assembly.circuit, assembly.held);
        prepared =
            std::make_unique<PoweredCircuit>(PoweredCircuit{std::move(assembly), std::move(operating_point)});
    }
    return *prepared;
}

std::vector<std::optional<double>> Predictor::volts(const Explanation& explanation,
                                                    const Situation& situation,
                                                    const std::vector<Contact>& contacts, bool awake) {
    const PoweredCircuit& prepared = powered(explanation.variant, awake);
    std::vector<electrics::Node> nodes;
    std::vector<std::size_t> asked;
    std::vector<std::optional<double>> result(contacts.size());
    for (std::size_t i = 0; i < contacts.size(); ++i) {
        const electrics::Node node = node_of(contacts[i], prepared.assembly);
        if (node == none) continue;
        nodes.push_back(node);
        asked.push_back(i);
    }
    // Edges are numbered alike with the battery on and off.
    const auto solved = prepared.operating_point.volts(nodes, changes(explanation, situation));
    for (std::size_t i = 0; i < asked.size(); ++i) result[asked[i]] = solved[i];
    return result;
}

}  // namespace halfsplit::diagnosis
