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
    predictor.remembered().use(rates);
    for (std::size_t i = 0; i < evidence.measured.size(); ++i) {
        Group& group = group_of(evidence.measured[i]);
        const auto tips = possible_tips(evidence.measured[i]);
        group.measured.push_back(i);
        group.tips.insert(group.tips.end(), tips.begin(), tips.end());
        group.begin.push_back(group.tips.size());
        group.number.push_back(predictor.remembered().number_of(evidence.measured[i]));
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

Remembered::Row& Weighing::row(const Explanation& explanation, const Group& group) {
    Remembered::Row& row =
        predictor_.remembered().row(predictor_.harness(), explanation, *group.situation, group.power);
    const std::size_t last = *std::max_element(group.number.begin(), group.number.end());
    if (row.size() <= last) row.resize(last + 1);
    return row;
}

const Remembered::Row& Weighing::likelihoods(const Explanation& explanation, const Group& group) {
    Remembered::Row& row = this->row(explanation, group);
    std::vector<std::size_t> fresh;
    std::vector<Tips> tips;
    for (std::size_t k = 0; k < group.measured.size(); ++k) {
        if (row[group.number[k]].likelihood) continue;
        fresh.push_back(k);
        for (std::size_t i = group.begin[k]; i < group.begin[k + 1]; ++i) tips.push_back(group.tips[i]);
    }
    if (fresh.empty()) return row;
    const Foresight foresight = foresee(predictor_, explanation, *group.situation, group.power, tips);
    std::size_t begin = 0;
    for (const std::size_t k : fresh) {
        const std::size_t count = group.begin[k + 1] - group.begin[k];
        row[group.number[k]].likelihood = likelihood(evidence_.measured[group.measured[k]],
                                                     std::span(foresight).subspan(begin, count), rates_);
        begin += count;
    }
    return row;
}

const Remembered::Row& Weighing::gains(const Explanation& single, std::size_t g) {
    const Group& group = groups_[g];
    Remembered::Row& row = this->row(single, group);
    std::vector<std::size_t> fresh;
    std::vector<Tips> tips;
    for (std::size_t k = 0; k < group.measured.size(); ++k) {
        if (row[group.number[k]].gain) continue;
        fresh.push_back(k);
        tips.push_back(group.tips[group.begin[k]]);
    }
    if (fresh.empty()) return row;
    const Foresight foresight = foresee(predictor_, single, *group.situation, group.power, tips);
    const Foresight& whole = sound(single.variant, g);
    for (std::size_t i = 0; i < fresh.size(); ++i) {
        const std::size_t k = fresh[i];
        row[group.number[k]].gain =
            gain(evidence_.measured[group.measured[k]], foresight[i], whole[group.begin[k]]);
    }
    return row;
}

double Weighing::chance_of_coming_and_going(const Explanation& explanation) const {
    if (explanation.faults.empty()) return 0;
    return evidence_.comes_and_goes ? rates_.intermittent_told : rates_.intermittent;
}

namespace {

// A share of what a likelihood owes to a slip and to each of the wrong wires.
void add_share(const Likelihood& chance, double share, double& gross, std::vector<double>& wrong_wire) {
    gross += share * gross_share(chance);
    wrong_wire.resize(chance.wrong_by.size());
    for (std::size_t i = 0; i < chance.wrong_by.size(); ++i)
        wrong_wire[i] += share * chance.wrong_by[i] / chance.total;
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

double Weighing::quiet(const Measured& measured) const {
    return measured.provoked ? rates_.quiet_when_provoked : rates_.quiet_at_rest;
}

void Weighing::add_readings(const Explanation& explanation, Sums& sums) {
    for (const Group& group : groups_) {
        const Remembered::Row& own = likelihoods(explanation, group);
        const Remembered::Row* whole =
            sums.may_waver ? &likelihoods({.variant = explanation.variant}, group) : nullptr;
        for (std::size_t k = 0; k < group.measured.size(); ++k) {
            const std::size_t number = group.number[k];
            const double faulty = own[number].likelihood->total;
            sums.steady += std::log(faulty);
            if (whole == nullptr) continue;
            const double sound = (*whole)[number].likelihood->total;
            sums.wavering += std::log(mix(quiet(evidence_.measured[group.measured[k]]), sound, faulty));
        }
    }
}

Shares Weighing::shares(const Explanation& explanation, const Weight& weight) {
    Shares result{std::vector<double>(evidence_.measured.size(), 0),
                  std::vector<std::vector<double>>(evidence_.measured.size())};
    const bool may_waver = chance_of_coming_and_going(explanation) > 0;
    for (const Group& group : groups_) {
        const Remembered::Row& own = likelihoods(explanation, group);
        const Remembered::Row* whole =
            may_waver ? &likelihoods({.variant = explanation.variant}, group) : nullptr;
        for (std::size_t k = 0; k < group.measured.size(); ++k) {
            const std::size_t m = group.measured[k];
            const Likelihood& faulty = *own[group.number[k]].likelihood;
            add_share(faulty, 1 - weight.comes_and_goes, result.gross[m], result.wrong_wire[m]);
            if (whole == nullptr) continue;
            const Likelihood& sound = *(*whole)[group.number[k]].likelihood;
            add_share(mixed(faulty, sound, quiet(evidence_.measured[m])), weight.comes_and_goes,
                      result.gross[m], result.wrong_wire[m]);
        }
    }
    return result;
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
    if (!sums.may_waver) return {sums.steady, 0};
    const double steady = std::log(1 - waver) + sums.steady;
    const double wavering = std::log(waver) + sums.wavering;
    const double top = std::max(steady, wavering);
    const double total = std::exp(steady - top) + std::exp(wavering - top);
    return {top + std::log(total), std::exp(wavering - top) / total};
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
        const Remembered::Row& row = gains(single, g);
        for (const std::size_t number : groups_[g].number) sum += *row[number].gain;
    }
    for (const Looked& looked : evidence_.looked) {
        if (looked.faulty && single.faults.front().part == looked.part) sum += 3;
    }
    return sum;
}

}  // namespace halfsplit::diagnosis
