#include "halfsplit/diagnosis/silence.hpp"

#include <algorithm>
#include <array>

namespace halfsplit::diagnosis {

using electrics::Assembly;
using electrics::Change;
using electrics::EdgeKind;
using electrics::Node;
using harness::none;

namespace {

// A joint of this many ohms and more is as good as open for a message.
constexpr double blocking_ohm = 500;

bool is_series(EdgeKind kind) {
    return kind == EdgeKind::Wire || kind == EdgeKind::Contact || kind == EdgeKind::Crimp ||
           kind == EdgeKind::Through;
}

bool is_short(EdgeKind kind) {
    return kind == EdgeKind::ShortLines || kind == EdgeKind::ShortGround || kind == EdgeKind::ShortSupply;
}

// What is left of the bus under an explanation, as far as messages go.
struct Reach {
    std::vector<char> reached;  // by node, from the socket along either line: the lines do not meet
    bool shorted = false;
    bool terminator_missing = false;  // or out of reach
};

bool in_place(const Assembly& assembly, std::size_t edge, double ohm) {
    return assembly.roles[edge].kind == EdgeKind::Terminator && ohm < 1000;
}

Reach reach(const PreparedCircuit& circuit, const std::vector<Change>& changes) {
    const Assembly& assembly = circuit.assembly;
    const auto& edges = assembly.circuit.edges;
    std::vector<char> conducts(edges.size(), 0);
    std::vector<char> terminates(edges.size(), 0);
    Reach result;
    const auto set = [&](std::size_t edge, double ohm) {
        conducts[edge] = is_series(assembly.roles[edge].kind) && ohm < blocking_ohm ? 1 : 0;
        terminates[edge] = in_place(assembly, edge, ohm) ? 1 : 0;
        result.shorted = result.shorted || (is_short(assembly.roles[edge].kind) && ohm < blocking_ohm);
    };
    for (std::size_t edge = 0; edge < edges.size(); ++edge) set(edge, edges[edge].ohm);
    for (const Change& change : changes) set(change.edge, change.ohm);
    result.reached = circuit.graph.reached({assembly.socket_high, assembly.socket_low}, conducts);
    for (std::size_t edge = 0; edge < edges.size(); ++edge) {
        if (assembly.roles[edge].kind != EdgeKind::Terminator) continue;
        const bool in_reach = result.reached[edges[edge].from] != 0 && result.reached[edges[edge].to] != 0;
        if (terminates[edge] == 0 || !in_reach) result.terminator_missing = true;
    }
    return result;
}

double silent_chance(const Assembly::ModuleEnd& module, const Reach& faulty,
                     const harness::Assumptions& rates) {
    const bool high_open = module.high == none || faulty.reached[module.high] == 0;
    const bool low_open = module.low == none || faulty.reached[module.low] == 0;
    if (high_open && low_open) return rates.silent_both_open;
    if (high_open || low_open) return rates.silent_one_open;
    return faulty.terminator_missing ? rates.silent_terminator : rates.silent_sound;
}

bool contains(const std::vector<harness::Index>& parts, harness::Index part) {
    return std::find(parts.begin(), parts.end(), part) != parts.end();
}

}  // namespace

double likelihood(const Scan& scan, const Explanation& explanation, const Situation& situation,
                  Predictor& predictor) {
    const PreparedCircuit& circuit = predictor.circuit(explanation.variant);
    const Assembly& assembly = circuit.assembly;
    if (assembly.socket_high == none || assembly.socket_low == none) return 1;
    const Reach faulty = reach(circuit, predictor.changes(explanation, situation));

    const harness::Assumptions& rates = predictor.harness().assumptions;
    double independent = 1;
    bool all_silent = true;
    for (const auto& module : assembly.modules) {
        const bool answers = contains(scan.answering, module.part);
        if (!answers && !contains(scan.silent, module.part)) continue;
        const double silent = faulty.shorted ? rates.silent_sound : silent_chance(module, faulty, rates);
        independent *= answers ? 1 - silent : silent;
        all_silent = all_silent && !answers;
    }
    for (const harness::Index part : scan.answering) {
        if (predictor.variants()[explanation.variant].present[part] == 0) independent *= 1e-3;
    }
    // A short takes all modules down together, or, rarely, none.
    if (faulty.shorted) return (all_silent ? rates.silent_short : 0) + (1 - rates.silent_short) * independent;
    return independent;
}

}  // namespace halfsplit::diagnosis
