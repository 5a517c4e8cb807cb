#include "diagnosis/weighing.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace halfsplit::diagnosis {

namespace {

// Chances of a look: a fault in plain sight is rarely missed, a sound part rarely condemned (from memory).
constexpr double faulty_part_looks_faulty = 0.95;
constexpr double sound_part_looks_faulty = 0.005;
// The complaint is gone although a fault is still there; or still there although none is (something off this
// bus).
constexpr double cured_by_chance = 0.05;
constexpr double uncured_though_sound = 0.1;
// Readings that are entered before it is asked again whether the rest is worth it.
constexpr std::size_t at_once = 8;

double mix(double quiet, double sound, double faulty) {
    return quiet * sound + (1 - quiet) * faulty;
}

std::size_t at(Kind kind) {
    return static_cast<std::size_t>(kind);
}

double log_of(double prior) {
    return prior > 0 ? std::log(prior) : -1e300;
}

// Both ways, for what each is worth.
Weight combined(double prior, double waver, double steady, double wavering) {
    if (waver <= 0) return {log_of(prior) + steady, 0};
    steady += std::log(1 - waver);
    wavering += std::log(waver);
    const double top = std::max(steady, wavering);
    const double total = std::exp(steady - top) + std::exp(wavering - top);
    return {log_of(prior) + top + std::log(total), std::exp(wavering - top) / total};
}

double sum(const std::array<double, kinds_of_evidence>& by_kind) {
    return std::accumulate(by_kind.begin(), by_kind.end(), 0.0);
}

}  // namespace

struct Weighing::Sums {
    double& steady;
    double& wavering;
    bool may_waver;

    // Evidence that a fault which comes and goes shows `sound` in with a chance of `quiet`.
    void add(double faulty, double sound, double quiet) {
        steady += std::log(faulty);
        if (may_waver) wavering += std::log(mix(quiet, sound, faulty));
    }
};

Weighing::Weighing(Predictor& predictor, const Evidence& evidence, const harness::Assumptions& rates)
    : predictor_(predictor), evidence_(evidence), rates_(rates), locations_(predictor, evidence.located) {
    Remembered& remembered = predictor.remembered();
    Ledger& ledger = predictor.ledger();
    if (!remembered.use(rates)) ledger.close();
    ledger.open(evidence, rates);
    for (const Measured& measured : evidence.measured) {
        group_.push_back(group_of(measured));
        number_.push_back(remembered.number_of(measured));
    }
    for (std::size_t variant = 0; variant < predictor.variants().size(); ++variant) {
        const Explanation sound{.variant = variant};
        Account account;
        carry(sound, account, 0, evidence.measured.size());
        for (std::size_t g = 0; g < groups_.size(); ++g) whole_.push_back(&row(sound, account, g));
    }
}

std::size_t Weighing::group_of(const Measured& measured) {
    for (std::size_t g = 0; g < groups_.size(); ++g) {
        if (*groups_[g].situation == measured.situation && groups_[g].power == measured.power()) return g;
    }
    groups_.push_back({.situation = &measured.situation, .power = measured.power()});
    return groups_.size() - 1;
}

std::size_t Weighing::all(Kind kind) const {
    switch (kind) {
        case Kind::Distance:
            return evidence_.located.size();
        case Kind::Look:
            return evidence_.looked.size();
        case Kind::Scan:
            return evidence_.scanned.size();
        case Kind::Proof:
            return evidence_.proved.size();
        case Kind::Reading:
            return evidence_.measured.size();
    }
    return 0;
}

bool Weighing::entered_all(const Account& account) const {
    for (std::size_t kind = 0; kind < kinds_of_evidence; ++kind) {
        if (account.entered[kind] < all(static_cast<Kind>(kind))) return false;
    }
    return true;
}

double Weighing::waver(const Explanation& explanation) const {
    if (explanation.faults.empty()) return 0;
    return evidence_.comes_and_goes ? rates_.intermittent_told : rates_.intermittent;
}

double Weighing::quiet(const Measured& measured) const {
    return measured.provoked ? rates_.quiet_when_provoked : rates_.quiet_at_rest;
}

Remembered::Row& Weighing::row(const Explanation& explanation, Account& account, std::size_t group) {
    if (account.rows.size() < groups_.size()) account.rows.resize(groups_.size());
    Row*& known = account.rows[group];
    if (known == nullptr) {
        const auto& [situation, power] = groups_[group];
        known = &predictor_.remembered().row(predictor_.harness(), explanation, *situation, power);
    }
    return *known;
}

void Weighing::foresee_each(const Explanation& explanation, Row& row, const Readings& readings,
                            const Take& take) {
    const auto is_kept = [&](std::size_t reading) {
        const std::size_t tips = number_[reading].tips;
        return tips < row.foreseen.size() && !row.foreseen[tips].empty();
    };
    std::vector<Tips> tips;
    std::vector<std::size_t> begin;  // of the reading's own among them
    for (const std::size_t reading : readings) {
        begin.push_back(tips.size());
        if (is_kept(reading)) continue;
        const auto own = possible_tips(evidence_.measured[reading]);
        tips.insert(tips.end(), own.begin(), own.end());
    }
    begin.push_back(tips.size());
    const auto& [situation, power] = groups_[group_[readings.front()]];
    std::vector<Foreseen> all;
    if (!tips.empty()) all = foresee(predictor_, explanation, *situation, power, tips);
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const std::size_t number = number_[readings[i]].tips;
        std::span<const Foreseen> own = std::span(all).subspan(begin[i], begin[i + 1] - begin[i]);
        if (own.empty()) {
            own = row.foreseen[number];
        } else if (row.keeps_foreseen) {
            if (row.foreseen.size() <= number) row.foreseen.resize(number + 1);
            row.foreseen[number].assign(own.begin(), own.end());
        }
        take(readings[i], own);
    }
}

void Weighing::carry(const Explanation& explanation, Account& account, std::size_t from, std::size_t to) {
    Readings fresh;
    for (std::size_t m = from; m < to; ++m) {
        Row& own = row(explanation, account, group_[m]);
        if (own.readings.size() <= number_[m].reading) own.readings.resize(number_[m].reading + 1);
        if (own.readings[number_[m].reading].total == 0) fresh.push_back(m);
    }
    while (!fresh.empty()) {
        const std::size_t group = group_[fresh.front()];
        const auto rest = std::stable_partition(fresh.begin(), fresh.end(),
                                                [&](std::size_t m) { return group_[m] == group; });
        Row& own = row(explanation, account, group);
        foresee_each(explanation, own, {fresh.begin(), rest},
                     [&](std::size_t m, std::span<const Foreseen> foreseen) {
                         Likelihood chance = likelihood(evidence_.measured[m], foreseen, rates_);
                         own.readings[number_[m].reading] = {chance.total, chance.slip + chance.wrong,
                                                             std::move(chance.wrong_by)};
                     });
        fresh.erase(fresh.begin(), rest);
    }
}

void Weighing::enter_readings(const Explanation& explanation, Account& account, std::size_t from,
                              std::size_t to, Sums& sums) {
    carry(explanation, account, from, to);
    for (std::size_t m = from; m < to; ++m) {
        const std::size_t number = number_[m].reading;
        const double faulty = row(explanation, account, group_[m]).readings[number].total;
        const double sound = whole(explanation.variant, group_[m]).readings[number].total;
        sums.add(faulty, sound, quiet(evidence_.measured[m]));
    }
}

void Weighing::enter_looks(const Explanation& explanation, std::size_t from, Sums& sums) const {
    for (std::size_t i = from; i < evidence_.looked.size(); ++i) {
        const Looked& looked = evidence_.looked[i];
        const bool faulty =
            std::any_of(explanation.faults.begin(), explanation.faults.end(), [&](const Fault& fault) {
                return fault.part == looked.part &&
                       is_unmended(predictor_.harness(), explanation, fault, looked.situation);
            });
        const double looks_faulty = faulty ? faulty_part_looks_faulty : sound_part_looks_faulty;
        // In plain sight whether it shows just now or not.
        const double chance = looked.faulty ? looks_faulty : 1 - looks_faulty;
        sums.add(chance, chance, 0);
    }
}

void Weighing::enter_scans(const Explanation& explanation, std::size_t from, Sums& sums) {
    for (std::size_t i = from; i < evidence_.scanned.size(); ++i) {
        const Scanned& scanned = evidence_.scanned[i];
        const double faulty = likelihood(scanned.scan, explanation, scanned.situation, predictor_);
        const double sound = sums.may_waver ? likelihood(scanned.scan, {.variant = explanation.variant},
                                                         scanned.situation, predictor_)
                                            : faulty;
        sums.add(faulty, sound, rates_.quiet_at_rest);
    }
}

void Weighing::enter_distances(const Explanation& explanation, std::size_t from, Sums& sums) const {
    const Explanation sound{.variant = explanation.variant};
    for (std::size_t i = from; i < locations_.size(); ++i)
        sums.add(locations_.chance(i, explanation), locations_.chance(i, sound), rates_.quiet_at_rest);
}

void Weighing::enter_proofs(const Explanation& explanation, std::size_t from, Sums& sums) const {
    for (std::size_t i = from; i < evidence_.proved.size(); ++i) {
        const Proved& proved = evidence_.proved[i];
        const bool sound = remaining(predictor_.harness(), explanation, proved.situation).empty();
        const auto chance = [&](double cured) { return proved.cured ? cured : 1 - cured; };
        const double if_sound = chance(1 - uncured_though_sound);
        sums.add(sound ? if_sound : chance(cured_by_chance), if_sound, rates_.quiet_at_rest);
    }
}

// The next kind of which something is missing; of readings a few.
void Weighing::enter_some(const Explanation& explanation, Account& account) {
    std::size_t kind = 0;
    while (account.entered[kind] == all(static_cast<Kind>(kind))) ++kind;
    Sums sums{account.steady[kind], account.wavering[kind], waver(explanation) > 0};
    std::size_t& entered = account.entered[kind];
    const std::size_t from = entered;
    entered = all(static_cast<Kind>(kind));
    switch (static_cast<Kind>(kind)) {
        case Kind::Distance:
            return enter_distances(explanation, from, sums);
        case Kind::Look:
            return enter_looks(explanation, from, sums);
        case Kind::Scan:
            return enter_scans(explanation, from, sums);
        case Kind::Proof:
            return enter_proofs(explanation, from, sums);
        case Kind::Reading:
            entered = std::min(entered, from + at_once);
            return enter_readings(explanation, account, from, entered, sums);
    }
}

// Likelihoods are at most 1, but for rounding and for distances, which are densities.
double Weighing::at_most(const Explanation& explanation, const Account& account) const {
    constexpr double rounding = 0.5;
    const bool open_ended = account.entered[at(Kind::Distance)] < evidence_.located.size();
    if (open_ended) return std::numeric_limits<double>::infinity();
    double most = sum(account.steady);
    if (waver(explanation) > 0) most = std::max(most, sum(account.wavering));
    return log_of(explanation.prior) + most + rounding;
}

Weight Weighing::of(const Explanation& explanation, Account& account, double least) {
    while (!entered_all(account)) {
        if (at_most(explanation, account) < least) return {};
        enter_some(explanation, account);
    }
    return combined(explanation.prior, waver(explanation), sum(account.steady), sum(account.wavering));
}

namespace {

// Of what a likelihood owes to a slip, and to each of the wrong wires. `sound`: what a sound bus would show,
// as it does with a chance of `quiet`.
void add_share(const Carried& faulty, const Carried& sound, double quiet, double share, double& gross,
               std::vector<double>& wrong_wire) {
    const double total = mix(quiet, sound.total, faulty.total);
    gross += share * std::min(1.0, mix(quiet, sound.gross, faulty.gross) / total);
    for (std::size_t i = 0; i < faulty.wrong_by.size(); ++i)
        wrong_wire[i] += share * mix(quiet, sound.wrong_by[i], faulty.wrong_by[i]) / total;
}

}  // namespace

void Weighing::add_shares(const Explanation& explanation, Account& account, const Weight& weight,
                          double probability, Belief& belief) {
    const bool may_waver = waver(explanation) > 0;
    for (std::size_t m = 0; m < evidence_.measured.size(); ++m) {
        const std::size_t number = number_[m].reading;
        const Carried& faulty = row(explanation, account, group_[m]).readings[number];
        const Carried& sound = whole(explanation.variant, group_[m]).readings[number];
        const auto add = [&](double quiet, double share) {
            add_share(faulty, sound, quiet, probability * share, belief.surprise[m], belief.wrong_wire[m]);
        };
        add(0, 1 - weight.comes_and_goes);
        if (may_waver) add(quiet(evidence_.measured[m]), weight.comes_and_goes);
    }
}

// Open or closed counts as well as the figure: with both lines cut at different places a meter shows kilohms
// where either cut alone would show 240 ohm.
double Weighing::gain(std::size_t reading, const Foreseen& foreseen, const Foreseen& sound) const {
    const Measured& measured = evidence_.measured[reading];
    if (measured.volts) {
        const auto total = [&](const Foreseen& volts) {
            return likelihood(*measured.volts, volts.volts, rates_).total;
        };
        return std::max(0.0, std::log(total(foreseen) / total(sound)));
    }
    const auto better = [&](const Observation& seen) {
        return std::log(likelihood(seen, foreseen.ohms, rates_).total /
                        likelihood(seen, sound.ohms, rates_).total);
    };
    const Observation& seen = measured.observation;
    const double best = std::max(0.0, better(seen));
    const bool counts_as_open = seen.shown == Shown::Ohm && seen.ohm > rates_.buzzer_high_ohm;
    return counts_as_open ? std::max(best, better({.shown = Shown::Open})) : best;
}

double Weighing::partial_fit(const Numbered& single) {
    const Explanation& explanation = single.explanation;
    Account& own = account(single);
    for (; own.gains_entered < evidence_.measured.size(); ++own.gains_entered) {
        const std::size_t m = own.gains_entered;
        const Foreseen& sound = whole(explanation.variant, group_[m]).foreseen[number_[m].tips].front();
        foresee_each(explanation, row(explanation, own, group_[m]), {m},
                     [&](std::size_t, std::span<const Foreseen> foreseen) {
                         own.gain += gain(m, foreseen.front(), sound);
                     });
    }
    double fit = own.gain;
    for (const Looked& looked : evidence_.looked) {
        if (looked.faulty && explanation.faults.front().part == looked.part) fit += 3;
    }
    return fit;
}

}  // namespace halfsplit::diagnosis
