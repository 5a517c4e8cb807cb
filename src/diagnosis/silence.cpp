#include "halfsplit/diagnosis/silence.hpp"

#include <algorithm>

namespace halfsplit::diagnosis {

using electrics::Assembly;
using electrics::Change;
using electrics::EdgeKind;
using harness::none;

namespace {

// A short beyond what is cut off or unplugged is not on the bus that the socket sees.
bool shorts(const Assembly& assembly, const Reach& reach, std::size_t edge) {
    const electrics::Edge& own = assembly.circuit.edges[edge];
    switch (assembly.roles[edge].kind) {
        case EdgeKind::ShortLines:
            return reach.reached[own.from] && reach.reached[own.to];
        case EdgeKind::ShortGround:
        case EdgeKind::ShortSupply:
            return reach.reached[own.from] || reach.reached[own.to];
        default:
            return false;
    }
}

// No short is there in a sound bus.
bool shorted(const Assembly& assembly, const Reach& reach, const std::vector<Change>& changes) {
    return std::any_of(changes.begin(), changes.end(), [&](const Change& change) {
        return change.ohm < blocking_ohm && shorts(assembly, reach, change.edge);
    });
}

double silent_chance(const Reach::End& end, const Reach& reach, const harness::Assumptions& rates) {
    if (!end.high && !end.low) return rates.silent_both_open;
    if (!end.high || !end.low) return rates.silent_one_open;
    return reach.terminator_missing ? rates.silent_terminator : rates.silent_sound;
}

bool contains(const std::vector<harness::Index>& parts, harness::Index part) {
    return std::find(parts.begin(), parts.end(), part) != parts.end();
}

}  // namespace

double likelihood(const Scan& scan, const Explanation& explanation, const Situation& situation,
                  Predictor& predictor) {
    const Assembly& assembly = predictor.circuit(explanation.variant).assembly;
    if (assembly.socket_high == none) return 1;
    const std::vector<Change> changes = predictor.changes(explanation, situation);
    const Reach& reach = predictor.reaches(explanation.variant).after(changes);
    const bool is_shorted = shorted(assembly, reach, changes);

    const harness::Assumptions& rates = predictor.harness().assumptions;
    double independent = 1;
    bool all_silent = true;
    for (std::size_t m = 0; m < assembly.modules.size(); ++m) {
        const harness::Index part = assembly.modules[m].part;
        const bool answers = contains(scan.answering, part);
        if (!answers && !contains(scan.silent, part)) continue;
        const double silent = is_shorted ? rates.silent_sound : silent_chance(reach.modules[m], reach, rates);
        independent *= answers ? 1 - silent : silent;
        all_silent = all_silent && !answers;
    }
    for (const harness::Index part : scan.answering) {
        if (predictor.variants()[explanation.variant].present[part] == 0) independent *= 1e-3;
    }
    // A short takes all modules down together, or, rarely, none.
    if (is_shorted) return (all_silent ? rates.silent_short : 0) + (1 - rates.silent_short) * independent;
    return independent;
}

std::vector<harness::Index> likely_to_answer(const Explanation& explanation, const Situation& situation,
                                             Predictor& predictor) {
    const Assembly& assembly = predictor.circuit(explanation.variant).assembly;
    const std::vector<Change> changes = predictor.changes(explanation, situation);
    const Reach& reach = predictor.reaches(explanation.variant).after(changes);
    std::vector<harness::Index> result;
    if (shorted(assembly, reach, changes)) return result;
    const harness::Assumptions& rates = predictor.harness().assumptions;
    for (std::size_t m = 0; m < assembly.modules.size(); ++m) {
        if (silent_chance(reach.modules[m], reach, rates) < 0.5) result.push_back(assembly.modules[m].part);
    }
    std::sort(result.begin(), result.end());
    return result;
}

}  // namespace halfsplit::diagnosis
