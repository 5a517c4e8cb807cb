#include "halfsplit/diagnosis/silence.hpp"

#include <algorithm>

namespace halfsplit::diagnosis {

using electrics::Assembly;
using electrics::Change;
using electrics::EdgeKind;
using harness::none;

namespace {

bool is_short(EdgeKind kind) {
    return kind == EdgeKind::ShortLines || kind == EdgeKind::ShortGround || kind == EdgeKind::ShortSupply;
}

// No short is there in a sound bus.
bool shorted(const Assembly& assembly, const std::vector<Change>& changes) {
    return std::any_of(changes.begin(), changes.end(), [&](const Change& change) {
        return is_short(assembly.roles[change.edge].kind) && change.ohm < blocking_ohm;
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
    if (assembly.socket_high == none || assembly.socket_low == none) return 1;
    const std::vector<Change> changes = predictor.changes(explanation, situation);
    const Reach& reach = predictor.reaches(explanation.variant).after(changes);
    const bool is_shorted = shorted(assembly, changes);

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

}  // namespace halfsplit::diagnosis
