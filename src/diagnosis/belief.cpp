#include "halfsplit/diagnosis/belief.hpp"

#include "halfsplit/diagnosis/prior.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

namespace halfsplit::diagnosis {

using harness::Assumptions;
using harness::Index;

namespace {

// Chances of a look: a fault in plain sight is rarely missed, a sound part rarely condemned (from memory).
constexpr double faulty_part_looks_faulty = 0.95;
constexpr double sound_part_looks_faulty = 0.005;
// A complaint that comes and goes lets a faulty bus read sound at rest this often (from memory).
constexpr double sound_at_rest = 0.3;
// The complaint is gone although a fault is still there; or still there although none is (something off this
// bus).
constexpr double cured_by_chance = 0.05;
constexpr double uncured_though_sound = 0.1;
// Most single faults that are tried in pairs.
constexpr std::size_t most_paired = 60;
// Parts and lines whose best fault is paired with every other fault, besides those repaired.
constexpr std::size_t most_anchors = 6;

class Inference {
  public:
    Inference(Predictor& predictor, const Evidence& evidence)
        : predictor_(predictor), evidence_(evidence), rates_(predictor.harness().assumptions) {
        for (std::size_t i = 0; i < evidence.measured.size(); ++i)
            group_of(evidence.measured[i]).push_back(i);
        for (std::size_t v = 0; v < predictor.variants().size(); ++v) {
            for (const auto& group : groups_) sound_.push_back(predict({.variant = v}, group));
        }
    }

    Belief run() {
        std::vector<Explanation> singles = single_explanations();
        Belief belief = weigh(singles);
        const bool carried = std::none_of(belief.surprise.begin(), belief.surprise.end(),
                                          [](double surprise) { return surprise > 0.5; });
        if (carried && evidence_.repaired.empty()) return belief;
        std::vector<Explanation> all = std::move(singles);
        add_pairs(all);
        belief = weigh(all);
        belief.pairs = true;
        return belief;
    }

  private:
    // Readings taken in one situation, and all in ohms or all in volts, are predicted in one go.
    struct Group {
        const Situation* situation;
        electrics::Power power;
        std::vector<std::size_t> measured;
    };

    // Of one reading: in volts where it was taken with the battery on, else in ohms.
    struct Predicted {
        double ohm = 0;
        PredictedVolts volts{};
    };

    std::vector<std::size_t>& group_of(const Measured& measured) {
        for (Group& group : groups_) {
            if (*group.situation == measured.situation && group.power == measured.power())
                return group.measured;
        }
        groups_.push_back({&measured.situation, measured.power(), {}});
        return groups_.back().measured;
    }

    std::vector<Predicted> predict(const Explanation& explanation, const Group& group) {
        std::vector<Predicted> result;
        if (group.power == electrics::Power::Off) {
            for (const double ohm : predictor_.ohms(explanation, *group.situation, tips(group)))
                result.push_back({ohm});
            return result;
        }
        const bool awake = group.power == electrics::Power::Awake;
        for (const auto& volts : predict_volts(predictor_, explanation, *group.situation, tips(group), awake))
            result.push_back({0, volts});
        return result;
    }

    Likelihood chance_of(const Measured& measured, const Predicted& predicted) const {
        return measured.volts ? likelihood(*measured.volts, predicted.volts, rates_)
                              : likelihood(measured.observation, predicted.ohm, rates_);
    }

    std::vector<Tips> tips(const Group& group) const {
        std::vector<Tips> result;
        for (const std::size_t i : group.measured) result.push_back(evidence_.measured[i].tips);
        return result;
    }

    // With a repair behind us each explanation of a repaired part is two: the repair took, or it did not.
    void add(std::vector<Explanation>& explanations, Explanation explanation) const {
        const auto repaired = [&](const Fault& fault) {
            return std::find(evidence_.repaired.begin(), evidence_.repaired.end(), fault.part) !=
                   evidence_.repaired.end();
        };
        if (std::any_of(explanation.faults.begin(), explanation.faults.end(), repaired)) {
            Explanation failed = explanation;
            failed.repair_failed = true;
            failed.prior *= rates_.repair_fails;
            explanation.prior *= 1 - rates_.repair_fails;
            explanations.push_back(std::move(failed));
        }
        explanations.push_back(std::move(explanation));
    }

    std::vector<Explanation> single_explanations() {
        std::vector<Explanation> result;
        const std::size_t variants = predictor_.variants().size();
        for (std::size_t v = 0; v < variants; ++v) {
            const double share = 1.0 / static_cast<double>(variants);
            add(result, {.variant = v, .prior = share * rates_.nothing_wrong});
            const auto faults = all_faults(predictor_.harness(), predictor_.circuit(v).assembly);
            const auto weights = fault_weights(predictor_.harness(), faults);
            for (std::size_t f = 0; f < faults.size(); ++f) {
                add(result, {.variant = v,
                             .faults = {faults[f]},
                             .prior = share * (1 - rates_.nothing_wrong) * weights[f]});
            }
        }
        return result;
    }

    Likelihood of_reading(const Measured& measured, const Predicted& predicted,
                          const Predicted& sound) const {
        Likelihood chance = chance_of(measured, predicted);
        if (!evidence_.comes_and_goes || measured.moved) return chance;
        const Likelihood at_rest = chance_of(measured, sound);
        const auto mix = [](double faulty, double whole) {
            return (1 - sound_at_rest) * faulty + sound_at_rest * whole;
        };
        return {mix(chance.honest, at_rest.honest), mix(chance.slip, at_rest.slip),
                mix(chance.wrong, at_rest.wrong), mix(chance.total, at_rest.total)};
    }

    // Log likelihood of everything, and per reading the share of it that is a gross error.
    double log_likelihood(const Explanation& explanation, std::vector<double>& gross) {
        double sum = 0;
        gross.assign(evidence_.measured.size(), 0);
        for (std::size_t g = 0; g < groups_.size(); ++g) {
            const Group& group = groups_[g];
            const auto predicted = predict(explanation, group);
            const auto& sound = sound_[explanation.variant * groups_.size() + g];
            for (std::size_t k = 0; k < group.measured.size(); ++k) {
                const Likelihood chance =
                    of_reading(evidence_.measured[group.measured[k]], predicted[k], sound[k]);
                sum += std::log(chance.total);
                gross[group.measured[k]] = std::min(1.0, (chance.slip + chance.wrong) / chance.total);
            }
        }
        return sum + log_of_looks(explanation) + log_of_scans(explanation) + log_of_proofs(explanation);
    }

    double log_of_looks(const Explanation& explanation) const {
        double sum = 0;
        for (const Looked& looked : evidence_.looked) {
            const auto left = remaining(explanation, looked.situation);
            const bool faulty = std::any_of(left.begin(), left.end(),
                                            [&](const Fault& fault) { return fault.part == looked.part; });
            const double looks_faulty = faulty ? faulty_part_looks_faulty : sound_part_looks_faulty;
            sum += std::log(looked.faulty ? looks_faulty : 1 - looks_faulty);
        }
        return sum;
    }

    double log_of_scans(const Explanation& explanation) {
        double sum = 0;
        for (const Scanned& scanned : evidence_.scanned) {
            sum += std::log(likelihood(scanned.scan, explanation, scanned.situation, predictor_));
        }
        return sum;
    }

    double log_of_proofs(const Explanation& explanation) const {
        double sum = 0;
        for (const Proved& proved : evidence_.proved) {
            const bool sound = remaining(explanation, proved.situation).empty();
            const double cured = sound ? 1 - uncured_though_sound : cured_by_chance;
            sum += std::log(proved.cured ? cured : 1 - cured);
        }
        return sum;
    }

    Belief weigh(const std::vector<Explanation>& explanations) {
        Belief belief{.explanations = explanations, .now = {evidence_.apart, evidence_.repaired}};
        std::vector<double> logs;
        std::vector<std::vector<double>> gross(explanations.size());
        for (std::size_t i = 0; i < explanations.size(); ++i) {
            const double prior = explanations[i].prior > 0 ? std::log(explanations[i].prior) : -1e300;
            logs.push_back(prior + log_likelihood(explanations[i], gross[i]));
        }
        const double top = logs.empty() ? 0 : *std::max_element(logs.begin(), logs.end());
        for (const double log : logs) belief.probability.push_back(std::exp(log - top));
        const double total = std::accumulate(belief.probability.begin(), belief.probability.end(), 0.0);
        belief.surprise.assign(evidence_.measured.size(), 0);
        for (std::size_t i = 0; i < explanations.size(); ++i) {
            belief.probability[i] /= total;
            for (std::size_t m = 0; m < belief.surprise.size(); ++m) {
                belief.surprise[m] += belief.probability[i] * gross[i][m];
            }
        }
        return belief;
    }

    // How much better a fault carries one reading than a sound bus does. Open or closed counts as well as the
    // figure: with both lines cut at different places a meter shows kilohms where either cut alone would show
    // 240 ohm.
    double gain(const Measured& measured, const Predicted& predicted, const Predicted& sound) const {
        const auto better = [&](const Measured& shown) {
            return std::log(chance_of(shown, predicted).total / chance_of(shown, sound).total);
        };
        const Observation& seen = measured.observation;
        double best = std::max(0.0, better(measured));
        if (!measured.volts && seen.shown == Shown::Ohm && seen.ohm > rates_.buzzer_high_ohm) {
            Measured as_open = measured;
            as_open.observation = {.shown = Shown::Open, .look_alikes = seen.look_alikes};
            best = std::max(best, better(as_open));
        }
        return best;
    }

    // A fault that carries only some of the readings may be half of a pair.
    double partial_fit(const Explanation& explanation) {
        double sum = 0;
        for (std::size_t g = 0; g < groups_.size(); ++g) {
            const auto predicted = predict(explanation, groups_[g]);
            const auto& sound = sound_[explanation.variant * groups_.size() + g];
            for (std::size_t k = 0; k < predicted.size(); ++k) {
                sum += gain(evidence_.measured[groups_[g].measured[k]], predicted[k], sound[k]);
            }
        }
        for (const Looked& looked : evidence_.looked) {
            if (looked.faulty && explanation.faults.front().part == looked.part) sum += 3;
        }
        return sum;
    }

    struct Candidate {
        double score;
        std::size_t index;  // into the single explanations
    };

    bool was_repaired(const Explanation& single) const {
        const auto& repaired = evidence_.repaired;
        return std::find(repaired.begin(), repaired.end(), single.faults.front().part) != repaired.end();
    }

    // Single faults of one variant that carry some reading, best first. Those of parts that were repaired
    // stay, however many fit better by now.
    std::vector<Candidate> half_fits(const std::vector<Explanation>& singles, std::size_t variant) {
        std::vector<Candidate> result;
        for (std::size_t i = 0; i < singles.size(); ++i) {
            const Explanation& single = singles[i];
            if (single.faults.size() != 1 || single.repair_failed || single.variant != variant) continue;
            const double fit = partial_fit(single);
            if (fit > 0.1) result.push_back({fit + std::log(single.prior), i});
        }
        std::stable_sort(result.begin(), result.end(),
                         [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
        std::vector<Candidate> kept;
        for (const Candidate& one : result) {
            if (kept.size() < most_paired || was_repaired(singles[one.index])) kept.push_back(one);
        }
        return kept;
    }

    void add_pair(std::vector<Explanation>& pairs, const Explanation& first,
                  const Explanation& second) const {
        // Two modes of one part are one place to look: the single faults stand for them.
        if (first.faults.front().part == second.faults.front().part) return;
        add(pairs, {.variant = first.variant,
                    .faults = {first.faults.front(), second.faults.front()},
                    .prior = first.prior * second.prior * rates_.second_fault});
    }

    void add_pairs(std::vector<Explanation>& all) {
        const std::vector<Explanation> singles = all;
        for (std::size_t variant = 0; variant < predictor_.variants().size(); ++variant) {
            const std::vector<Candidate> halves = half_fits(singles, variant);
            for (std::size_t a = 0; a < halves.size(); ++a) {
                for (std::size_t b = a + 1; b < halves.size(); ++b) {
                    add_pair(all, singles[halves[a].index], singles[halves[b].index]);
                }
            }
            pair_with_anything(singles, halves, variant, all);
        }
    }

    // The second fault may lie where nothing was read yet: what fits best on its own, and what was repaired
    // without a cure, is paired with every fault there is.
    void pair_with_anything(const std::vector<Explanation>& singles, const std::vector<Candidate>& halves,
                            std::size_t variant, std::vector<Explanation>& all) {
        std::set<std::tuple<Index, Lines, Mode>> anchored;
        for (const Candidate& half : halves) {
            const Explanation& anchor = singles[half.index];
            const Fault& fault = anchor.faults.front();
            const bool repaired = was_repaired(anchor);
            if (!repaired && anchored.size() >= most_anchors) continue;
            // What was repaired may have been the mode that fits second best by itself.
            if (!anchored.insert({fault.part, fault.lines, repaired ? fault.mode : Mode::Open}).second)
                continue;
            for (std::size_t i = 0; i < singles.size(); ++i) {
                const Explanation& single = singles[i];
                if (single.variant != variant || single.faults.size() != 1 || single.repair_failed) continue;
                const bool listed = std::any_of(halves.begin(), halves.end(),
                                                [i](const Candidate& other) { return other.index == i; });
                if (!listed) add_pair(all, anchor, single);
            }
        }
    }

    Predictor& predictor_;
    const Evidence& evidence_;
    const Assumptions& rates_;
    std::vector<Group> groups_;
    std::vector<std::vector<Predicted>> sound_;  // by variant, then group: what a sound bus would show
};

}  // namespace

Belief infer(Predictor& predictor, const Evidence& evidence) {
    return Inference(predictor, evidence).run();
}

std::vector<double> by_part(const Belief& belief, std::size_t parts) {
    std::vector<double> result(parts, 0);
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        std::set<Index> counted;
        for (const Fault& fault : remaining(belief.explanations[i], belief.now)) {
            if (counted.insert(fault.part).second) result[fault.part] += belief.probability[i];
        }
    }
    return result;
}

double nothing_wrong(const Belief& belief) {
    double sum = 0;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        if (remaining(belief.explanations[i], belief.now).empty()) sum += belief.probability[i];
    }
    return sum;
}

std::vector<Suspect> suspects(const Belief& belief) {
    const auto key = [](const Fault& fault) {
        return std::tuple(fault.part, fault.mode, fault.lines, fault.terminal, fault.run);
    };
    std::map<decltype(key(Fault{})), Suspect> merged;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        for (Fault fault : remaining(belief.explanations[i], belief.now)) {
            fault.ohm = 0;
            Suspect& suspect = merged[key(fault)];
            suspect.fault = fault;
            suspect.probability += belief.probability[i];
        }
    }
    std::vector<Suspect> result;
    for (const auto& [ignored, suspect] : merged) result.push_back(suspect);
    std::stable_sort(result.begin(), result.end(),
                     [](const Suspect& a, const Suspect& b) { return a.probability > b.probability; });
    return result;
}

}  // namespace halfsplit::diagnosis
