#include "support/enumeration.hpp"

#include "halfsplit/diagnosis/prior.hpp"

#include "support/plain_meter.hpp"
#include "support/plain_predictor.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <set>

namespace halfsplit::test {

using namespace diagnosis;
using harness::Index;
using harness::PartKind;

namespace {

bool same_but_ohms(Fault one, Fault other) {
    one.ohm = other.ohm = 0;
    return one == other;
}

// Opens, bad joints, shorts: 0, 1, 2.
std::size_t class_of(const Fault& fault) {
    switch (fault.mode) {
        case Mode::BadJoint:
            return 1;
        case Mode::ShortLines:
        case Mode::ShortGround:
        case Mode::ShortSupply:
        case Mode::ExtraTerminator:
            return 2;
        default:
            return 0;
    }
}

}  // namespace

double total_variation(const Posterior& one, const Posterior& other) {
    double sum = 0;
    for (const auto& [names, probability] : one) {
        const auto found = other.find(names);
        sum += std::abs(probability - (found == other.end() ? 0 : found->second));
    }
    for (const auto& [names, probability] : other) {
        if (one.count(names) == 0) sum += probability;
    }
    return sum / 2;
}

Enumeration::Enumeration(const harness::Harness& harness, Evidence evidence)
    : harness_(harness),
      evidence_(std::move(evidence)),
      rates_(evidence_.rates ? *evidence_.rates : harness.assumptions) {
    for (const harness::Variant& variant : harness::variants(harness))
        assemblies_.push_back(electrics::assemble(harness, 0, variant.present));
    for (std::size_t m = 0; m < evidence_.measured.size(); ++m) add_to_group(m);
    for (std::size_t v = 0; v < assemblies_.size(); ++v) {
        for (const Group& group : groups_) sound_.push_back(predict({.variant = v}, group));
    }
}

void Enumeration::add_to_group(std::size_t reading) {
    const Measured& taken = evidence_.measured[reading];
    auto group = std::find_if(groups_.begin(), groups_.end(), [&](const Group& other) {
        return evidence_.measured[other.readings.front()].situation == taken.situation;
    });
    if (group == groups_.end()) group = groups_.insert(groups_.end(), Group{});
    group->readings.push_back(reading);
    group->tips.push_back(taken.tips);
    for (const LookAlike& wire : taken.look_alikes) {
        group->tips.push_back(taken.tips);
        (wire.red ? group->tips.back().red : group->tips.back().black).terminal = wire.terminal;
    }
}

std::vector<Predicted> Enumeration::predict(const Explanation& explanation, const Group& group) const {
    const Situation& situation = evidence_.measured[group.readings.front()].situation;
    return plain_figures(harness_, assemblies_[explanation.variant], showing(explanation, situation),
                         situation.apart, group.tips);
}

// A part's weight is shared among its opens, joints and shorts, as far as it can have them, and evenly within
// each.
std::vector<double> Enumeration::priors(const std::vector<Fault>& faults) const {
    const std::array<double, 3> shares{harness_.assumptions.open_share, harness_.assumptions.joint_share,
                                       harness_.assumptions.short_share};
    std::vector<double> result;
    for (const Fault& fault : faults) {
        std::array<double, 3> count{};
        for (const Fault& other : faults) {
            if (other.part == fault.part) ++count[class_of(other)];
        }
        double possible = 0;
        for (std::size_t i = 0; i < 3; ++i) possible += count[i] > 0 ? shares[i] : 0;
        const std::size_t own = class_of(fault);
        result.push_back(part_weight(harness_, fault.part) * shares[own] / possible / count[own]);
    }
    const double total = std::accumulate(result.begin(), result.end(), 0.0);
    for (double& weight : result) weight *= (1 - rates_.nothing_wrong) / total;
    return result;
}

bool Enumeration::was_repaired(const Fault& fault) const {
    const auto& repaired = evidence_.now.repaired;
    return std::any_of(repaired.begin(), repaired.end(),
                       [&](const Repaired& repair) { return repair.part == fault.part; });
}

bool Enumeration::was_reseated(const Fault& fault) const {
    const auto in = [&](const Situation& situation) {
        return std::count(situation.reseated.begin(), situation.reseated.end(), fault.part) != 0;
    };
    return in(evidence_.now) || std::any_of(evidence_.measured.begin(), evidence_.measured.end(),
                                            [&](const Measured& taken) { return in(taken.situation); });
}

namespace {

bool of_contacts(const harness::Harness& harness, const Fault& fault) {
    const PartKind kind = harness.parts[fault.part].kind;
    return fault.mode == Mode::Receded || fault.mode == Mode::Apart || fault.mode == Mode::BridgeAbsent ||
           (fault.mode == Mode::BadJoint && kind != PartKind::Run && kind != PartKind::Splice);
}

}  // namespace

// After a repair both that it took and that it did not; after reseating a single bad contact, both that this
// quieted it and that it did not.
void Enumeration::add(std::vector<Explanation>& into, Explanation explanation) const {
    const auto& faults = explanation.faults;
    const bool repaired =
        std::any_of(faults.begin(), faults.end(), [&](const Fault& fault) { return was_repaired(fault); });
    const bool reseated = !repaired && faults.size() == 1 && was_reseated(faults.front()) &&
                          of_contacts(harness_, faults.front());
    Explanation other = explanation;
    const double share = repaired ? rates_.repair_fails : reseated ? rates_.reseat_cures : 0;
    other.repair_failed = repaired;
    other.reseat_cured = reseated;
    other.prior *= share;
    explanation.prior *= 1 - share;
    if (share > 0) into.push_back(std::move(other));
    into.push_back(std::move(explanation));
}

std::vector<Explanation> Enumeration::singles() const {
    std::vector<Explanation> result;
    const double each = 1 / static_cast<double>(assemblies_.size());
    for (std::size_t v = 0; v < assemblies_.size(); ++v) {
        add(result, {.variant = v, .prior = each * rates_.nothing_wrong});
        const auto faults = all_faults(harness_, assemblies_[v]);
        const auto weights = priors(faults);
        for (std::size_t f = 0; f < faults.size(); ++f)
            add(result, {.variant = v, .faults = {faults[f]}, .prior = each * weights[f]});
    }
    return result;
}

std::vector<Explanation> Enumeration::pairs() const {
    std::vector<Explanation> result;
    const double each = 1 / static_cast<double>(assemblies_.size());
    for (std::size_t v = 0; v < assemblies_.size(); ++v) {
        const auto faults = all_faults(harness_, assemblies_[v]);
        const auto weights = priors(faults);
        for (std::size_t a = 0; a < faults.size(); ++a) {
            for (std::size_t b = a + 1; b < faults.size(); ++b) {
                if (faults[a].part == faults[b].part) continue;
                add(result, {.variant = v,
                             .faults = {faults[a], faults[b]},
                             .prior = each * weights[a] * weights[b] * rates_.second_fault});
            }
        }
    }
    return result;
}

double Enumeration::prior_of_names(const Explanation& pair) const {
    const auto faults = all_faults(harness_, assemblies_[pair.variant]);
    const auto weights = priors(faults);
    double prior = rates_.second_fault / static_cast<double>(assemblies_.size());
    for (const Fault& fault : pair.faults) {
        double sum = 0;
        for (std::size_t f = 0; f < faults.size(); ++f) {
            if (same_but_ohms(faults[f], fault)) sum += weights[f];
        }
        prior *= sum;
    }
    const bool repaired = std::any_of(pair.faults.begin(), pair.faults.end(),
                                      [&](const Fault& fault) { return was_repaired(fault); });
    if (!repaired) return prior;
    return prior * (pair.repair_failed ? rates_.repair_fails : 1 - rates_.repair_fails);
}

std::vector<Fault> Enumeration::unmended(const Explanation& explanation, const Situation& situation) const {
    std::vector<Fault> left;
    for (const Fault& fault : explanation.faults) {
        bool mended = false;
        for (const Repaired& repair : situation.repaired) {
            if (repair.part != fault.part) continue;
            mended = mended || !repair.reseated || of_contacts(harness_, fault);
        }
        if (!mended || explanation.repair_failed) left.push_back(fault);
    }
    return left;
}

std::vector<Fault> Enumeration::showing(const Explanation& explanation, const Situation& situation) const {
    auto left = unmended(explanation, situation);
    std::erase_if(left, [&](const Fault& fault) {
        return explanation.reseat_cured &&
               std::count(situation.reseated.begin(), situation.reseated.end(), fault.part) != 0;
    });
    return left;
}

// Logarithms of everything, if the fault always shows and if it comes and goes.
struct Enumeration::Likelihoods {
    double always = 0, at_times = 0;
    std::vector<double> gross_always, gross_at_times;
    std::vector<std::vector<double>> wrong_always, wrong_at_times;
};

struct Enumeration::Weighed {
    double log = 0, comes_and_goes = 0;
    std::vector<double> gross;
    std::vector<std::vector<double>> wrong;
};

namespace {

double between(double share, double one, double other) {
    return share * one + (1 - share) * other;
}

std::vector<double> between(double share, const std::vector<double>& one, const std::vector<double>& other) {
    std::vector<double> result;
    for (std::size_t i = 0; i < one.size(); ++i) result.push_back(between(share, one[i], other[i]));
    return result;
}

std::vector<double> divided(std::vector<double> parts, double whole) {
    for (double& part : parts) part /= whole;
    return parts;
}

}  // namespace

// What one reading says, if the fault shows and if the bus looks sound at that moment.
void Enumeration::add_reading(std::size_t reading, const PlainChance& shows, const PlainChance& hides,
                              Likelihoods& all) const {
    const double quiet =
        evidence_.measured[reading].provoked ? rates_.quiet_when_provoked : rates_.quiet_at_rest;
    const double total = between(quiet, hides.total, shows.total);
    all.always += std::log(shows.total);
    all.at_times += std::log(total);
    all.gross_always.push_back(shows.gross / shows.total);
    all.gross_at_times.push_back(between(quiet, hides.gross, shows.gross) / total);
    all.wrong_always.push_back(divided(shows.wrong_by, shows.total));
    all.wrong_at_times.push_back(divided(between(quiet, hides.wrong_by, shows.wrong_by), total));
}

void Enumeration::add_readings(const Explanation& explanation, Likelihoods& all) const {
    std::vector<PlainChance> shows(evidence_.measured.size()), hides(evidence_.measured.size());
    for (std::size_t g = 0; g < groups_.size(); ++g) {
        const auto faulty = predict(explanation, groups_[g]);
        const auto& sound = sound_[explanation.variant * groups_.size() + g];
        std::size_t at = 0;
        for (const std::size_t m : groups_[g].readings) {
            const Measured& taken = evidence_.measured[m];
            const auto chance = [&](const std::vector<Predicted>& figures) {
                const auto own = figures.begin() + static_cast<std::ptrdiff_t>(at);
                return plain_chance(taken.observation, *own, rates_,
                                    {own + 1, own + 1 + std::ssize(taken.look_alikes)});
            };
            shows[m] = chance(faulty);
            hides[m] = chance(sound);
            at += 1 + taken.look_alikes.size();
        }
    }
    for (std::size_t m = 0; m < shows.size(); ++m) add_reading(m, shows[m], hides[m], all);
}

void Enumeration::add_looks_and_proofs(const Explanation& explanation, Likelihoods& all) const {
    for (const Looked& looked : evidence_.looked) {
        const auto left = unmended(explanation, looked.situation);
        const bool faulty = std::any_of(left.begin(), left.end(),
                                        [&](const Fault& fault) { return fault.part == looked.part; });
        const double says_faulty = faulty ? 0.95 : 0.005;
        const double log = std::log(looked.faulty ? says_faulty : 1 - says_faulty);
        all.always += log;
        all.at_times += log;
    }
    for (const Proved& proved : evidence_.proved) {
        const double when_sound = proved.cured ? 0.9 : 0.1;
        const double when_faulty = proved.cured ? 0.05 : 0.95;
        const double own = showing(explanation, proved.situation).empty() ? when_sound : when_faulty;
        all.always += std::log(own);
        all.at_times += std::log(between(rates_.quiet_at_rest, when_sound, own));
    }
}

Enumeration::Weighed Enumeration::weigh(const Explanation& explanation) const {
    Likelihoods all;
    add_readings(explanation, all);
    add_looks_and_proofs(explanation, all);
    double waver = evidence_.comes_and_goes ? rates_.intermittent_told : rates_.intermittent;
    if (explanation.faults.empty()) waver = 0;
    const double always = (1 - waver) * std::exp(all.always);
    const double at_times = waver * std::exp(all.at_times);
    Weighed result{std::log(always + at_times), at_times / (always + at_times)};
    result.gross = between(result.comes_and_goes, all.gross_at_times, all.gross_always);
    for (std::size_t m = 0; m < all.wrong_always.size(); ++m)
        result.wrong.push_back(between(result.comes_and_goes, all.wrong_at_times[m], all.wrong_always[m]));
    return result;
}

PlainBelief Enumeration::weigh(std::vector<Explanation> explanations) const {
    PlainBelief result{.explanations = std::move(explanations)};
    std::vector<Weighed> weighed;
    double total = 0;
    for (const Explanation& explanation : result.explanations) {
        weighed.push_back(weigh(explanation));
        result.probability.push_back(explanation.prior * std::exp(weighed.back().log));
        total += result.probability.back();
    }
    result.surprise.resize(evidence_.measured.size());
    for (const Measured& taken : evidence_.measured)
        result.wrong_wire.emplace_back(taken.look_alikes.size(), 0.0);
    for (std::size_t i = 0; i < weighed.size(); ++i) {
        const double share = result.probability[i] /= total;
        result.comes_and_goes += share * weighed[i].comes_and_goes;
        for (std::size_t m = 0; m < result.surprise.size(); ++m) {
            result.surprise[m] += share * weighed[i].gross[m];
            for (std::size_t k = 0; k < weighed[i].wrong[m].size(); ++k)
                result.wrong_wire[m][k] += share * weighed[i].wrong[m][k];
        }
    }
    return result;
}

Posterior Enumeration::by_names(const std::vector<Explanation>& explanations,
                                const std::vector<double>& probability) const {
    Posterior result;
    for (std::size_t i = 0; i < explanations.size(); ++i) {
        std::set<std::string> names;
        for (const Fault& fault : explanations[i].faults) names.insert(name(harness_, fault));
        std::string all;
        for (const std::string& each : names) all += (all.empty() ? "" : " + ") + each;
        result[all] += probability[i];
    }
    return result;
}

std::vector<double> Enumeration::by_part(const PlainBelief& belief) const {
    std::vector<double> result(harness_.parts.size(), 0);
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        std::set<Index> parts;
        for (const Fault& fault : unmended(belief.explanations[i], evidence_.now)) parts.insert(fault.part);
        for (const Index part : parts) result[part] += belief.probability[i];
    }
    return result;
}

}  // namespace halfsplit::test
