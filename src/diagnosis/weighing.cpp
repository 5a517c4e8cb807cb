#include "diagnosis/weighing.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::diagnosis {

namespace {

// Chances of a look: a fault in plain sight is rarely missed, a sound part rarely condemned (from memory).
constexpr double faulty_part_looks_faulty = 0.95;
constexpr double sound_part_looks_faulty = 0.005;
// The complaint is gone although a fault is still there; or still there although none is (something off this
// bus).
constexpr double cured_by_chance = 0.05;
constexpr double uncured_though_sound = 0.1;

double mix(double quiet, double sound, double faulty) {
    return quiet * sound + (1 - quiet) * faulty;
}

double gross_share(const Likelihood& chance) {
    return std::min(1.0, (chance.slip + chance.wrong) / chance.total);
}

}  // namespace

struct Weighing::Sums {
    double steady = 0, wavering = 0;  // logs
    bool may_waver = false;
    std::vector<double> gross_steady, gross_wavering;               // by measured
    std::vector<std::vector<double>> wrong_steady, wrong_wavering;  // by measured and look-alike

    void add(double log) {
        steady += log;
        wavering += log;
    }
    // Evidence that a fault which comes and goes shows `sound` in with a chance of `quiet`.
    void add(double faulty, double sound, double quiet) {
        steady += std::log(faulty);
        if (may_waver) wavering += std::log(mix(quiet, sound, faulty));
    }
};

Weighing::Weighing(Predictor& predictor, const Evidence& evidence, const harness::Assumptions& rates)
    : predictor_(predictor), evidence_(evidence), rates_(rates), locations_(predictor, evidence.located) {
    for (std::size_t i = 0; i < evidence.measured.size(); ++i) {
        Group& group = group_of(evidence.measured[i]);
        const auto tips = possible_tips(evidence.measured[i]);
        group.measured.push_back(i);
        group.tips.insert(group.tips.end(), tips.begin(), tips.end());
        group.begin.push_back(group.tips.size());
    }
    for (std::size_t variant = 0; variant < predictor.variants().size(); ++variant) {
        for (const Group& group : groups_) sound_.push_back(foresee_all({.variant = variant}, group));
    }
}

Weighing::Group& Weighing::group_of(const Measured& measured) {
    for (Group& group : groups_) {
        if (*group.situation == measured.situation && group.power == measured.power()) return group;
    }
    groups_.push_back({.situation = &measured.situation, .power = measured.power(), .begin = {0}});
    return groups_.back();
}

Weighing::Foresight Weighing::foresee_all(const Explanation& explanation, const Group& group) {
    return foresee(predictor_, explanation, *group.situation, group.power, group.tips);
}

const Weighing::Foresight& Weighing::sound(std::size_t variant, std::size_t group) const {
    return sound_[variant * groups_.size() + group];
}

Likelihood Weighing::chance(const Group& group, std::size_t reading, const Foresight& foresight) const {
    const std::size_t begin = group.begin[reading], end = group.begin[reading + 1];
    return likelihood(evidence_.measured[group.measured[reading]],
                      std::span(foresight).subspan(begin, end - begin), rates_);
}

double Weighing::chance_of_coming_and_going(const Explanation& explanation) const {
    if (explanation.faults.empty()) return 0;
    return evidence_.comes_and_goes ? rates_.intermittent_told : rates_.intermittent;
}

namespace {

// What each look-alike has of the whole.
std::vector<double> shares(const Likelihood& chance, double of_total) {
    std::vector<double> result = chance.wrong_by;
    for (double& wire : result) wire /= of_total;
    return result;
}

Likelihood mixed(const Likelihood& faulty, const Likelihood& sound, double quiet) {
    Likelihood result{mix(quiet, sound.honest, faulty.honest), mix(quiet, sound.slip, faulty.slip),
                      mix(quiet, sound.wrong, faulty.wrong), mix(quiet, sound.total, faulty.total),
                      faulty.wrong_by};
    for (std::size_t i = 0; i < result.wrong_by.size() && i < sound.wrong_by.size(); ++i)
        result.wrong_by[i] = mix(quiet, sound.wrong_by[i], faulty.wrong_by[i]);
    return result;
}

}  // namespace

void Weighing::add_readings(const Explanation& explanation, Sums& sums) {
    const std::size_t count = evidence_.measured.size();
    sums.gross_steady.assign(count, 0);
    sums.gross_wavering.assign(count, 0);
    sums.wrong_steady.resize(count);
    sums.wrong_wavering.resize(count);
    for (std::size_t g = 0; g < groups_.size(); ++g) {
        const Group& group = groups_[g];
        const Foresight foresight = foresee_all(explanation, group);
        for (std::size_t k = 0; k < group.measured.size(); ++k) {
            const std::size_t m = group.measured[k];
            const Measured& measured = evidence_.measured[m];
            const Likelihood faulty = chance(group, k, foresight);
            sums.steady += std::log(faulty.total);
            sums.gross_steady[m] = gross_share(faulty);
            sums.wrong_steady[m] = shares(faulty, faulty.total);
            if (!sums.may_waver) continue;
            const Likelihood whole = chance(group, k, sound(explanation.variant, g));
            const Likelihood wavering =
                mixed(faulty, whole, measured.provoked ? rates_.quiet_when_provoked : rates_.quiet_at_rest);
            sums.wavering += std::log(wavering.total);
            sums.gross_wavering[m] = gross_share(wavering);
            sums.wrong_wavering[m] = shares(wavering, wavering.total);
        }
    }
}

void Weighing::add_looks(const Explanation& explanation, Sums& sums) const {
    for (const Looked& looked : evidence_.looked) {
        const auto left = unmended(predictor_.harness(), explanation, looked.situation);
        const bool faulty = std::any_of(left.begin(), left.end(),
                                        [&](const Fault& fault) { return fault.part == looked.part; });
        const double looks_faulty = faulty ? faulty_part_looks_faulty : sound_part_looks_faulty;
        sums.add(std::log(looked.faulty ? looks_faulty : 1 - looks_faulty));
    }
}

void Weighing::add_scans(const Explanation& explanation, Sums& sums) {
    for (const Scanned& scanned : evidence_.scanned) {
        const double faulty = likelihood(scanned.scan, explanation, scanned.situation, predictor_);
        const double sound = sums.may_waver ? likelihood(scanned.scan, {.variant = explanation.variant},
                                                         scanned.situation, predictor_)
                                            : faulty;
        sums.add(faulty, sound, rates_.quiet_at_rest);
    }
}

void Weighing::add_distances(const Explanation& explanation, Sums& sums) const {
    const Explanation whole{.variant = explanation.variant};
    for (std::size_t i = 0; i < locations_.size(); ++i)
        sums.add(locations_.chance(i, explanation), locations_.chance(i, whole), rates_.quiet_at_rest);
}

void Weighing::add_proofs(const Explanation& explanation, Sums& sums) const {
    for (const Proved& proved : evidence_.proved) {
        const bool sound = remaining(predictor_.harness(), explanation, proved.situation).empty();
        const auto chance = [&](double cured) { return proved.cured ? cured : 1 - cured; };
        const double whole = chance(1 - uncured_though_sound);
        sums.add(sound ? whole : chance(cured_by_chance), whole, rates_.quiet_at_rest);
    }
}

Weight Weighing::of(const Explanation& explanation) {
    const double waver = chance_of_coming_and_going(explanation);
    Sums sums;
    sums.may_waver = waver > 0;
    add_readings(explanation, sums);
    add_looks(explanation, sums);
    add_scans(explanation, sums);
    add_distances(explanation, sums);
    add_proofs(explanation, sums);
    if (!sums.may_waver) return {sums.steady, 0, std::move(sums.gross_steady), std::move(sums.wrong_steady)};
    const double steady = std::log(1 - waver) + sums.steady;
    const double wavering = std::log(waver) + sums.wavering;
    const double top = std::max(steady, wavering);
    const double total = std::exp(steady - top) + std::exp(wavering - top);
    const double share = std::exp(wavering - top) / total;
    for (std::size_t m = 0; m < sums.gross_steady.size(); ++m) {
        sums.gross_steady[m] = mix(share, sums.gross_wavering[m], sums.gross_steady[m]);
        for (std::size_t i = 0; i < sums.wrong_steady[m].size(); ++i)
            sums.wrong_steady[m][i] = mix(share, sums.wrong_wavering[m][i], sums.wrong_steady[m][i]);
    }
    return {top + std::log(total), share, std::move(sums.gross_steady), std::move(sums.wrong_steady)};
}

// Open or closed counts as well as the figure: with both lines cut at different places a meter shows kilohms
// where either cut alone would show 240 ohm.
double Weighing::gain(const Measured& measured, const Foreseen& foreseen, const Foreseen& sound) const {
    const auto better = [&](const Measured& shown) {
        return std::log(likelihood(shown, {&foreseen, 1}, rates_).total /
                        likelihood(shown, {&sound, 1}, rates_).total);
    };
    double best = std::max(0.0, better(measured));
    const Observation& seen = measured.observation;
    if (!measured.volts && seen.shown == Shown::Ohm && seen.ohm > rates_.buzzer_high_ohm) {
        Measured as_open = measured;
        as_open.observation = {.shown = Shown::Open};
        best = std::max(best, better(as_open));
    }
    return best;
}

double Weighing::partial_fit(const Explanation& single) {
    double sum = 0;
    for (std::size_t g = 0; g < groups_.size(); ++g) {
        const Group& group = groups_[g];
        const Foresight foresight = foresee_all(single, group);
        const Foresight& whole = sound(single.variant, g);
        for (std::size_t k = 0; k < group.measured.size(); ++k) {
            const std::size_t own = group.begin[k];
            sum += gain(evidence_.measured[group.measured[k]], foresight[own], whole[own]);
        }
    }
    for (const Looked& looked : evidence_.looked) {
        if (looked.faulty && single.faults.front().part == looked.part) sum += 3;
    }
    return sum;
}

}  // namespace halfsplit::diagnosis
