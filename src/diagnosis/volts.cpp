#include "halfsplit/diagnosis/volts.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace halfsplit::diagnosis {

using harness::none;

namespace {

// Readings are compared by the chance of falling into a cell this wide around the figure.
double cell_in_volts(double volt) {
    return 0.05 + 0.005 * std::abs(volt);
}

double even_between(double volt, double lowest, double highest) {
    return volt < lowest || volt > highest ? 0 : cell_in_volts(volt) / (highest - lowest);
}

// A figure that owes nothing to the prediction: from a little below ground to a charged battery.
double any_volts(double volt) {
    return even_between(volt, -1, 15);
}

// Two sigma of 0.05 V + 10 % cover a sleeping bus of -0.1 to 0.1 V, a resting one of 2.0 to 3.0 V (both ISO
// 11898-2) and a battery of 10 to 15 V; a meter's 0.5 % and two digits (common practice, no source) vanish
// in it.
double within_tolerance(double volt, double predicted) {
    const double sigma = 0.05 + 0.1 * std::abs(predicted);
    const double off = (volt - predicted) / sigma;
    return std::min(
        1.0, cell_in_volts(volt) / (sigma * std::sqrt(2 * std::numbers::pi)) * std::exp(-off * off / 2));
}

// The mean of a line that is dominant for that share of the time.
double mean(const TipVolts& tip, double share) {
    const double rest = *tip.rest;
    switch (tip.pulled) {
        case TipVolts::Pulled::Up:
            return rest + share * std::max(0.0, dominant_high_volt - rest);
        case TipVolts::Pulled::Down:
            return rest - share * std::max(0.0, rest - dominant_low_volt);
        case TipVolts::Pulled::Nowhere:
            break;
    }
    return rest;
}

bool is_pulled(const PredictedVolts& predicted) {
    return predicted.red.pulled != TipVolts::Pulled::Nowhere ||
           predicted.black.pulled != TipVolts::Pulled::Nowhere;
}

// How much traffic there is, nobody knows: the share of dominant time has a density that falls evenly from
// 0 to 1 (common practice, no source: a bus is idle more often than not).
double honest(const VoltObservation& seen, const PredictedVolts& predicted) {
    const double rest = *at_rest(predicted);
    if (std::isnan(rest)) return any_volts(seen.volt);
    if (!is_pulled(predicted)) return within_tolerance(seen.volt, rest);
    constexpr int steps = 20;
    double sum = 0;
    for (int step = 0; step < steps; ++step) {
        const double share = (step + 0.5) / steps;
        const double shown = mean(predicted.red, share) - mean(predicted.black, share);
        sum += 2 * (1 - share) / steps * within_tolerance(seen.volt, shown);
    }
    return sum;
}

// Mostly nothing, which a voltmeter shows as 0; now and then it drifts, by a few volts at most (common
// practice, no source).
double slipped(const VoltObservation& seen) {
    constexpr double shows_nothing = 0.7;
    return shows_nothing * within_tolerance(seen.volt, 0) +
           (1 - shows_nothing) * even_between(seen.volt, -1, 3);
}

}  // namespace

std::vector<PredictedVolts> predict_volts(Predictor& predictor, const Explanation& explanation,
                                          const Situation& situation, const std::vector<Tips>& tips,
                                          bool awake) {
    std::vector<Contact> contacts;
    for (const Tips& pair : tips) {
        contacts.push_back(pair.red);
        contacts.push_back(pair.black);
    }
    const auto volts = predictor.volts(explanation, situation, contacts, awake);
    const auto tip = [&](std::size_t i) {
        TipVolts result{volts[i]};
        if (!awake || contacts[i].kind != Contact::Kind::Terminal || contacts[i].terminal == none)
            return result;
        const bool high = predictor.harness().terminals[contacts[i].terminal].line == harness::Line::High;
        result.pulled = high ? TipVolts::Pulled::Up : TipVolts::Pulled::Down;
        return result;
    };
    std::vector<PredictedVolts> result;
    for (std::size_t i = 0; i < tips.size(); ++i) result.push_back({tip(2 * i), tip(2 * i + 1)});
    return result;
}

std::optional<double> at_rest(const PredictedVolts& predicted) {
    if (!predicted.red.rest || !predicted.black.rest) return std::nullopt;
    return *predicted.red.rest - *predicted.black.rest;
}

Likelihood likelihood(const VoltObservation& observation, const PredictedVolts& predicted,
                      const harness::Assumptions& rates, const std::vector<PredictedVolts>& look_alikes) {
    constexpr double floor = 1e-6;
    Likelihood result;
    if (!at_rest(predicted)) {
        result.wrong = result.total = floor;
        result.wrong_by.assign(look_alikes.size(), 0);
        return result;
    }
    const double wrong_rate = look_alikes.empty() ? rates.wrong_wire / 10 : rates.wrong_wire;
    result.honest = honest(observation, predicted);
    result.slip = rates.contact_slip * slipped(observation);
    for (const PredictedVolts& wire : look_alikes) {
        const double chance = at_rest(wire) ? honest(observation, wire) : any_volts(observation.volt);
        result.wrong_by.push_back(wrong_rate / static_cast<double>(look_alikes.size()) * chance);
        result.wrong += result.wrong_by.back();
    }
    if (look_alikes.empty()) result.wrong = wrong_rate * any_volts(observation.volt);
    result.wrong += floor;
    result.total = (1 - rates.contact_slip - wrong_rate) * result.honest + result.slip + result.wrong;
    return result;
}

bool distinguishable_volts(double volt, double other_volt) {
    const double apart = std::abs(volt - other_volt);
    return apart > 0.3 && apart > 0.2 * std::max(std::abs(volt), std::abs(other_volt));
}

}  // namespace halfsplit::diagnosis
