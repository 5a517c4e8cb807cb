#include "diagnosis/explanations.hpp"

#include "halfsplit/diagnosis/prior.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

namespace halfsplit::diagnosis {

using harness::Assumptions;
using harness::Index;

namespace {

// Most single faults that are tried in pairs.
constexpr std::size_t most_paired = 60;
// Parts and lines whose best fault is paired with every other fault, besides those repaired.
constexpr std::size_t most_anchors = 6;

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

// A single fault with the ohms that carry the readings best; the prior is that of all its ohms.
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
    std::vector<Half> halves(std::size_t variant) {
        const auto key = [](const Fault& fault) {
            return std::tuple(fault.part, fault.mode, fault.lines, fault.terminal, fault.run);
        };
        std::map<decltype(key(Fault{})), std::size_t> position;
        std::vector<Half> result;
        for (const Explanation& single : singles_) {
            if (single.variant != variant || single.faults.empty()) continue;
            const Fault& fault = single.faults.front();
            const auto [known, added] = position.try_emplace(key(fault), result.size());
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

// Which of the halves carry some reading: the best of them, and all those of parts that were repaired.
std::vector<char> carrying(const std::vector<Half>& halves) {
    std::vector<char> result(halves.size(), 0);
    std::size_t kept = 0;
    for (std::size_t i = 0; i < halves.size(); ++i) {
        if (halves[i].fit <= 0.1 || (kept >= most_paired && !halves[i].repaired)) continue;
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

}  // namespace

std::vector<Explanation> paired_explanations(const std::vector<Explanation>& singles, Weighing& weighing,
                                             const Evidence& evidence, const Assumptions& rates) {
    std::set<std::size_t> variants;
    for (const Explanation& single : singles) variants.insert(single.variant);
    std::vector<Explanation> result;
    Adding adding(weighing.harness(), evidence, rates, result);
    for (const std::size_t variant : variants) {
        const std::vector<Half> halves = Pairing(singles, weighing, evidence).halves(variant);
        const std::vector<char> carries = carrying(halves);
        const std::vector<char> anchored = anchors(halves, carries);
        for (std::size_t a = 0; a < halves.size(); ++a) {
            for (std::size_t b = a + 1; b < halves.size(); ++b) {
                const bool both = carries[a] != 0 && carries[b] != 0;
                if (!both && anchored[a] == 0 && anchored[b] == 0) continue;
                // Two modes of one part are one place to look: the single faults stand for them.
                if (halves[a].fault.part == halves[b].fault.part) continue;
                // Each half has the variant's share in its prior: once is enough.
                adding.add({.variant = variant,
                            .faults = {halves[a].fault, halves[b].fault},
                            .prior = halves[a].prior * halves[b].prior * rates.second_fault *
                                     static_cast<double>(variants.size())});
            }
        }
    }
    return result;
}

}  // namespace halfsplit::diagnosis
