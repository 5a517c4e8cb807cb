#include "diagnosis/explanations.hpp"

#include "diagnosis/catalogue.hpp"

#include <algorithm>
#include <cmath>
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
           std::vector<Numbered>& into)
        : harness_(harness), evidence_(evidence), rates_(rates), into_(into) {
        for (const Measured& measured : evidence.measured) note_reseated(measured.situation);
        note_reseated(evidence.now);
    }

    // `one` and `other`: as numbered() has them.
    void add(Explanation explanation, std::uint64_t one = 0, std::uint64_t other = 0) {
        const bool repaired =
            std::any_of(explanation.faults.begin(), explanation.faults.end(),
                        [&](const Fault& fault) { return was_repaired(evidence_, fault.part); });
        if (repaired) {
            Explanation failed = explanation;
            failed.repair_failed = true;
            failed.prior *= rates_.repair_fails;
            explanation.prior *= 1 - rates_.repair_fails;
            into_.push_back(numbered(failed, one, other));
        } else if (may_be_quiet(explanation)) {
            Explanation cured = explanation;
            cured.reseat_cured = true;
            cured.prior *= rates_.reseat_cures;
            explanation.prior *= 1 - rates_.reseat_cures;
            into_.push_back(numbered(cured, one, other));
        }
        into_.push_back(numbered(explanation, one, other));
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
    std::vector<Numbered>& into_;
};

}  // namespace

std::vector<Numbered> single_explanations(Predictor& predictor, const Evidence& evidence,
                                          const Assumptions& rates) {
    std::vector<Numbered> result;
    Adding adding(predictor.harness(), evidence, rates, result);
    const std::size_t variants = predictor.variants().size();
    for (std::size_t v = 0; v < variants; ++v) {
        const double share = 1.0 / static_cast<double>(variants);
        adding.add({.variant = v, .prior = share * rates.nothing_wrong});
        const Catalogue& catalogue = predictor.catalogue(v);
        for (std::size_t f = 0; f < catalogue.faults.size(); ++f) {
            adding.add({.variant = v,
                        .faults = {catalogue.faults[f]},
                        .prior = share * (1 - rates.nothing_wrong) * catalogue.weights[f]},
                       f + 1);
        }
    }
    return result;
}

namespace {

enum class Ohms { Best, Each };

// A single fault; of its ohms those that carry the readings best, with the prior of all of them, or each by
// itself.
struct Half {
    Fault fault;
    std::size_t position = 0;  // in the catalogue
    double prior = 0;
    double fit = 0;
    double score = 0;
    bool repaired = false;
};

class Pairing {
  public:
    Pairing(const std::vector<Numbered>& singles, Predictor& predictor, Weighing& weighing,
            const Evidence& evidence)
        : singles_(singles), predictor_(predictor), weighing_(weighing), evidence_(evidence) {}

    // Of one variant, best first.
    std::vector<Half> halves(std::size_t variant, Ohms ohms) {
        const Catalogue& catalogue = predictor_.catalogue(variant);
        std::vector<std::size_t> half_of(catalogue.faults.size(), catalogue.faults.size());  // none yet
        std::vector<Half> result;
        for (const Numbered& single : singles_) {
            const Explanation& explanation = single.explanation;
            if (explanation.variant != variant || explanation.faults.empty()) continue;
            const std::size_t position = first_fault(single);
            const std::size_t name = ohms == Ohms::Each ? position : catalogue.like_first[position];
            const bool added = half_of[name] == catalogue.faults.size();
            if (added) {
                half_of[name] = result.size();
                const Fault& fault = catalogue.faults[position];
                result.push_back(
                    {.fault = fault, .position = position, .repaired = was_repaired(evidence_, fault.part)});
            }
            Half& half = result[half_of[name]];
            half.prior += explanation.prior;
            if (explanation.repair_failed || explanation.reseat_cured) continue;
            const double fit = weighing_.partial_fit(single);
            if (!added && fit <= half.fit) continue;
            half.fit = fit;
            half.fault = catalogue.faults[position];
            half.position = position;
        }
        for (Half& half : result) half.score = half.fit + std::log(half.prior);
        std::stable_sort(result.begin(), result.end(),
                         [](const Half& a, const Half& b) { return a.score > b.score; });
        return result;
    }

  private:
    const std::vector<Numbered>& singles_;
    Predictor& predictor_;
    Weighing& weighing_;
    const Evidence& evidence_;
};

// Pointers into what halves() gave.
using Pair = std::pair<const Half*, const Half*>;

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
            if (both || anchored[a] != 0 || anchored[b] != 0) pairs.emplace_back(&halves[a], &halves[b]);
        }
    }
}

// Those in a loop that carry nothing by themselves, with each other where that takes a line apart. `halves`:
// with the best of their ohms; `each`: with each of them.
void add_in_loops(const Catalogue& catalogue, const std::vector<Half>& halves, const std::vector<Half>& each,
                  std::vector<Pair>& pairs) {
    std::set<std::size_t> in_loops;
    for (const Half& half : halves) {
        if (half.fit <= least_fit && catalogue.quiet[half.position] != 0)
            in_loops.insert(catalogue.like_first[half.position]);
    }
    std::vector<const Half*> quiet;
    for (const Half& half : each) {
        if (quiet.size() < most_in_loops && in_loops.count(catalogue.like_first[half.position]) != 0)
            quiet.push_back(&half);
    }
    for (std::size_t a = 0; a < quiet.size(); ++a) {
        for (std::size_t b = a + 1; b < quiet.size(); ++b) {
            if (catalogue.loops.part_together(quiet[a]->fault, quiet[b]->fault))
                pairs.emplace_back(quiet[a], quiet[b]);
        }
    }
}

}  // namespace

std::vector<Numbered> paired_explanations(const std::vector<Numbered>& singles, Predictor& predictor,
                                          Weighing& weighing, const Evidence& evidence,
                                          const Assumptions& rates) {
    std::vector<Numbered> result;
    Adding adding(predictor.harness(), evidence, rates, result);
    Pairing pairing(singles, predictor, weighing, evidence);
    const std::size_t variants = predictor.variants().size();
    for (std::size_t variant = 0; variant < variants; ++variant) {
        const std::vector<Half> halves = pairing.halves(variant, Ohms::Best);
        std::vector<Pair> pairs;
        add_carrying(halves, pairs);
        const Catalogue& catalogue = predictor.catalogue(variant);
        std::vector<Half> each;
        if (catalogue.any_quiet) each = pairing.halves(variant, Ohms::Each);
        add_in_loops(catalogue, halves, each, pairs);
        for (auto [one, other] : pairs) {
            // Two modes of one part are one place to look: the single faults stand for them.
            if (one->fault.part == other->fault.part) continue;
            if (one->position > other->position) std::swap(one, other);
            // Each half has the variant's share in its prior: once is enough.
            adding.add(
                {.variant = variant,
                 .faults = {one->fault, other->fault},
                 .prior = one->prior * other->prior * rates.second_fault * static_cast<double>(variants)},
                one->position + 1, other->position + 1);
        }
    }
    return result;
}

}  // namespace halfsplit::diagnosis
