#include "diagnosis/explanations.hpp"

#include "halfsplit/diagnosis/prior.hpp"

#include "diagnosis/loops.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

namespace halfsplit::diagnosis {

using harness::Assumptions;
using harness::Index;

namespace {

// From here on, in the logarithm of the likelihood, a fault carries some reading.
constexpr double least_fit = 0.1;
// Most single faults that are tried in pairs.
constexpr std::size_t most_paired = 60;
// Parts and lines whose best fault is paired with every other fault, besides those repaired.
constexpr std::size_t most_anchors = 6;
// Faults in loops that are tried in pairs.
constexpr std::size_t most_in_loops = 200;

bool was_repaired(const Evidence& evidence, Index part) {
    const auto& repaired = evidence.now.repaired;
    return std::any_of(repaired.begin(), repaired.end(),
                       [part](const Repaired& repair) { return repair.part == part; });
}

// An explanation, and what goes with it after repairs and reseating.
class Adding {
  public:
    Adding(const harness::Harness& harness, const Evidence& evidence, const Assumptions& rates,
           std::vector<Explanation>& into)
        : harness_(harness), evidence_(evidence), rates_(rates), into_(into) {
        for (const Measured& measured : evidence.measured) note_reseated(measured.situation);
        note_reseated(evidence.now);
    }

    void add(Explanation explanation) {
        const bool repaired =
            std::any_of(explanation.faults.begin(), explanation.faults.end(),
                        [&](const Fault& fault) { return was_repaired(evidence_, fault.part); });
        if (repaired) {
            Explanation failed = explanation;
            failed.repair_failed = true;
            failed.prior *= rates_.repair_fails;
            explanation.prior *= 1 - rates_.repair_fails;
            into_.push_back(std::move(failed));
        } else if (may_be_quiet(explanation)) {
            Explanation cured = explanation;
            cured.reseat_cured = true;
            cured.prior *= rates_.reseat_cures;
            explanation.prior *= 1 - rates_.reseat_cures;
            into_.push_back(std::move(cured));
        }
        into_.push_back(std::move(explanation));
    }

  private:
    void note_reseated(const Situation& situation) {
        reseated_.insert(situation.reseated.begin(), situation.reseated.end());
    }
    bool may_be_quiet(const Explanation& explanation) const {
        return explanation.faults.size() == 1 && reseated_.count(explanation.faults.front().part) != 0 &&
               is_of_contacts(harness_, explanation.faults.front());
    }

    const harness::Harness& harness_;
    const Evidence& evidence_;
    const Assumptions& rates_;
    std::set<Index> reseated_;
    std::vector<Explanation>& into_;
};

}  // namespace

std::vector<Explanation> single_explanations(Predictor& predictor, const Evidence& evidence,
                                             const Assumptions& rates) {
    std::vector<Explanation> result;
    Adding adding(predictor.harness(), evidence, rates, result);
    const std::size_t variants = predictor.variants().size();
    for (std::size_t v = 0; v < variants; ++v) {
        const double share = 1.0 / static_cast<double>(variants);
        adding.add({.variant = v, .prior = share * rates.nothing_wrong});
        const auto faults = all_faults(predictor.harness(), predictor.circuit(v).assembly);
        const auto weights = fault_weights(predictor.harness(), faults);
        for (std::size_t f = 0; f < faults.size(); ++f) {
            adding.add({.variant = v,
                        .faults = {faults[f]},
                        .prior = share * (1 - rates.nothing_wrong) * weights[f]});
        }
    }
    return result;
}

namespace {

// A fault but for its ohms.
using Name = std::tuple<Index, Mode, Lines, Index, Index>;

Name name_of(const Fault& fault) {
    return {fault.part, fault.mode, fault.lines, fault.terminal, fault.run};
}

enum class Ohms { Best, Each };

// A single fault; of its ohms those that carry the readings best, with the prior of all of them, or each by
// itself.
struct Half {
    Fault fault;
    double prior = 0;
    double fit = 0;
    bool repaired = false;

    double score() const { return fit + std::log(prior); }
};

class Pairing {
  public:
    Pairing(const std::vector<Explanation>& singles, Weighing& weighing, const Evidence& evidence)
        : singles_(singles), weighing_(weighing), evidence_(evidence) {}

    // Of one variant, best first.
    std::vector<Half> halves(std::size_t variant, Ohms ohms) {
        std::map<std::pair<Name, double>, std::size_t> position;
        std::vector<Half> result;
        for (const Explanation& single : singles_) {
            if (single.variant != variant || single.faults.empty()) continue;
            const Fault& fault = single.faults.front();
            const auto [known, added] =
                position.try_emplace({name_of(fault), ohms == Ohms::Each ? fault.ohm : 0}, result.size());
            if (added) result.push_back({.fault = fault, .repaired = was_repaired(evidence_, fault.part)});
            Half& half = result[known->second];
            half.prior += single.prior;
            if (single.repair_failed || single.reseat_cured) continue;
            const double fit = weighing_.partial_fit(single);
            if (!added && fit <= half.fit) continue;
            half.fit = fit;
            half.fault = fault;
        }
        std::stable_sort(result.begin(), result.end(),
                         [](const Half& a, const Half& b) { return a.score() > b.score(); });
        return result;
    }

  private:
    const std::vector<Explanation>& singles_;
    Weighing& weighing_;
    const Evidence& evidence_;
};

using Pair = std::pair<Half, Half>;

// Which of the halves carry some reading: the best of them, and all those of parts that were repaired.
std::vector<char> carrying(const std::vector<Half>& halves) {
    std::vector<char> result(halves.size(), 0);
    std::size_t kept = 0;
    for (std::size_t i = 0; i < halves.size(); ++i) {
        if (halves[i].fit <= least_fit || (kept >= most_paired && !halves[i].repaired)) continue;
        result[i] = 1;
        ++kept;
    }
    return result;
}

// Which of them are paired with everything: the best of each part and line, and what was repaired in any
// mode, since that may have been the one that fits second best by itself.
std::vector<char> anchors(const std::vector<Half>& halves, const std::vector<char>& carries) {
    std::vector<char> result(halves.size(), 0);
    std::set<std::tuple<Index, Lines, Mode>> taken;
    for (std::size_t i = 0; i < halves.size(); ++i) {
        const Half& half = halves[i];
        if (carries[i] == 0 || (!half.repaired && taken.size() >= most_anchors)) continue;
        const Mode mode = half.repaired ? half.fault.mode : Mode::Open;
        if (taken.insert({half.fault.part, half.fault.lines, mode}).second) result[i] = 1;
    }
    return result;
}

// Those that carry some reading with one another, and the anchors with all.
void add_carrying(const std::vector<Half>& halves, std::vector<Pair>& pairs) {
    const std::vector<char> carries = carrying(halves);
    const std::vector<char> anchored = anchors(halves, carries);
    for (std::size_t a = 0; a < halves.size(); ++a) {
        for (std::size_t b = a + 1; b < halves.size(); ++b) {
            const bool both = carries[a] != 0 && carries[b] != 0;
            if (both || anchored[a] != 0 || anchored[b] != 0) pairs.emplace_back(halves[a], halves[b]);
        }
    }
}

// Those in a loop that carry nothing by themselves, with each other where that takes a line apart. `halves`:
// with the best of their ohms.
void add_in_loops(Pairing& pairing, std::size_t variant, const std::vector<Half>& halves, const Loops& loops,
                  std::vector<Pair>& pairs) {
    std::set<Name> in_loops;
    for (const Half& half : halves) {
        if (half.fit <= least_fit && loops.quiet(half.fault)) in_loops.insert(name_of(half.fault));
    }
    if (in_loops.empty()) return;
    std::vector<Half> quiet;
    for (const Half& half : pairing.halves(variant, Ohms::Each)) {
        if (quiet.size() < most_in_loops && in_loops.count(name_of(half.fault)) != 0) quiet.push_back(half);
    }
    for (std::size_t a = 0; a < quiet.size(); ++a) {
        for (std::size_t b = a + 1; b < quiet.size(); ++b) {
            if (loops.part_together(quiet[a].fault, quiet[b].fault)) pairs.emplace_back(quiet[a], quiet[b]);
        }
    }
}

}  // namespace

std::vector<Explanation> paired_explanations(const std::vector<Explanation>& singles, Weighing& weighing,
                                             const Evidence& evidence, const Assumptions& rates) {
    std::set<std::size_t> variants;
    for (const Explanation& single : singles) variants.insert(single.variant);
    std::vector<Explanation> result;
    Adding adding(weighing.harness(), evidence, rates, result);
    Pairing pairing(singles, weighing, evidence);
    for (const std::size_t variant : variants) {
        const std::vector<Half> halves = pairing.halves(variant, Ohms::Best);
        std::vector<Pair> pairs;
        add_carrying(halves, pairs);
        add_in_loops(pairing, variant, halves, Loops(weighing.assembly(variant)), pairs);
        for (const auto& [one, other] : pairs) {
            // Two modes of one part are one place to look: the single faults stand for them.
            if (one.fault.part == other.fault.part) continue;
            // Each half has the variant's share in its prior: once is enough.
            adding.add({.variant = variant,
                        .faults = {one.fault, other.fault},
                        .prior = one.prior * other.prior * rates.second_fault *
                                 static_cast<double>(variants.size())});
        }
    }
    return result;
}

}  // namespace halfsplit::diagnosis
