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
    return kind == EdgeKind::Wire || kind == EdgeKind::Contact || kind == EdgeKind::Crimp || kind == EdgeKind::Through;
}

bool is_short(EdgeKind kind) {
    return kind == EdgeKind::ShortLines || kind == EdgeKind::ShortGround || kind == EdgeKind::ShortSupply;
}

// What is left of the bus under an explanation, as far as messages go.
struct Reach {
    std::vector<char> high, low;  // by node: reached from the socket along line H, line L
    bool shorted = false;
    std::size_t terminators = 0;  // with both ends in reach
};

std::vector<char> flood(const Assembly& assembly, const std::vector<double>& ohm, Node start) {
    std::vector<char> reached(assembly.circuit.nodes, 0);
    reached[start] = 1;
    // Series edges of a bus are few and mostly in order: sweeping until nothing changes needs a handful of passes.
    for (bool again = true; again;) {
        again = false;
        for (std::size_t e = 0; e < assembly.roles.size(); ++e) {
            if (!is_series(assembly.roles[e].kind) || ohm[e] >= blocking_ohm) continue;
            const auto& edge = assembly.circuit.edges[e];
            if (reached[edge.from] == reached[edge.to]) continue;
            reached[edge.from] = reached[edge.to] = 1;
            again = true;
        }
    }
    return reached;
}

Reach reach(const Assembly& assembly, const std::vector<Change>& changes) {
    std::vector<double> ohm;
    ohm.reserve(assembly.circuit.edges.size());
    for (const auto& edge : assembly.circuit.edges) ohm.push_back(edge.ohm);
    Reach result;
    for (const Change& change : changes) {
        ohm[change.edge] = change.ohm;
        result.shorted = result.shorted || (is_short(assembly.roles[change.edge].kind) && change.ohm < blocking_ohm);
    }
    result.high = flood(assembly, ohm, assembly.socket_high);
    result.low = flood(assembly, ohm, assembly.socket_low);
    for (std::size_t e = 0; e < assembly.roles.size(); ++e) {
        if (assembly.roles[e].kind != EdgeKind::Terminator || ohm[e] > 1000) continue;
        const auto& edge = assembly.circuit.edges[e];
        if (result.high[edge.from] != 0 && result.low[edge.to] != 0) ++result.terminators;
    }
    return result;
}

double silent_chance(const Assembly::ModuleEnd& module, const Reach& faulty, bool terminator_missing,
                     const SilenceFigures& figures) {
    const bool high_open = module.high == none || faulty.high[module.high] == 0;
    const bool low_open = module.low == none || faulty.low[module.low] == 0;
    if (high_open && low_open) return figures.both_open;
    if (high_open || low_open) return figures.one_open;
    return terminator_missing ? figures.terminator_missing : figures.sound;
}

bool contains(const std::vector<harness::Index>& parts, harness::Index part) {
    return std::find(parts.begin(), parts.end(), part) != parts.end();
}

}  // namespace

double likelihood(const Scan& scan, const Explanation& explanation, const Situation& situation, Predictor& predictor,
                  const SilenceFigures& figures) {
    const Assembly& assembly = predictor.circuit(explanation.variant, situation.apart).assembly;
    if (assembly.socket_high == none || assembly.socket_low == none) return 1;
    const Reach whole = reach(assembly, {});
    const Reach faulty = reach(assembly, changes(remaining(explanation, situation), assembly));
    const bool terminator_missing = faulty.terminators < whole.terminators;

    double independent = 1;
    bool all_silent = true;
    for (const auto& module : assembly.modules) {
        const bool answers = contains(scan.answering, module.part);
        if (!answers && !contains(scan.silent, module.part)) continue;
        const double silent = faulty.shorted ? figures.sound : silent_chance(module, faulty, terminator_missing, figures);
        independent *= answers ? 1 - silent : silent;
        all_silent = all_silent && !answers;
    }
    for (const harness::Index part : scan.answering) {
        if (predictor.variants()[explanation.variant].present[part] == 0) independent *= 1e-3;
    }
    // A short takes all modules down together, or, rarely, none.
    if (faulty.shorted) return (all_silent ? figures.shorted : 0) + (1 - figures.shorted) * independent;
    return independent;
}

}  // namespace halfsplit::diagnosis
