#include "advice/doubt.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/advice/review.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/harness/companions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace halfsplit::advice {

using diagnosis::Contact;
using diagnosis::Explanation;
using diagnosis::Measured;
using harness::Harness;
using harness::Index;

namespace {

struct Slip {
    double weight;
    std::string words;
};

// To the tenth of a volt: no circuit that is assumed is known any better.
std::string volt_words(double volt) {
    const double rounded = std::round(volt * 10) / 10;
    return format_volt(rounded == 0 ? 0 : rounded);
}

std::string shown_words(const Measured& measured) {
    if (measured.volts) return format_volt(measured.volts->volt);
    const diagnosis::Observation& seen = measured.observation;
    switch (seen.shown) {
        case diagnosis::Shown::Closed:
            return "closed (beep)";
        case diagnosis::Shown::Open:
            return "open (no beep)";
        case diagnosis::Shown::Ohm:
            break;
    }
    return format_ohm(seen.ohm);
}

// The look-alikes beside the tips, as a slip each.
void add_wrong_wires(const Harness& harness, const Measured& measured, const diagnosis::Likelihood& chance,
                     std::vector<Slip>& slips) {
    for (std::size_t i = 0; i < measured.look_alikes.size(); ++i) {
        const diagnosis::LookAlike& wire = measured.look_alikes[i];
        const Contact& meant = wire.red ? measured.tips.red : measured.tips.black;
        for (const harness::Companion& other : companions(harness, meant.terminal)) {
            if (other.terminal != wire.terminal) continue;
            slips.push_back(
                {chance.wrong_by[i],
                 fmt::format("the wrong wire at {}: cavity {} ({}) has the same colours, {}",
                             terminal_name(harness, meant.terminal), harness.terminals[other.terminal].cavity,
                             other.circuit, in_words(other.colour))});
        }
    }
}

// How likely the reading is if it was taken in that situation; in volts, with the bus asleep or awake.
diagnosis::Likelihood chance_in(const diagnosis::Situation& situation, const Measured& measured,
                                const Explanation& explanation, const harness::Assumptions& rates,
                                diagnosis::Predictor& predictor) {
    const auto foreseen = diagnosis::foresee(predictor, explanation, situation, measured.power(),
                                             diagnosis::possible_tips(measured));
    return diagnosis::likelihood(measured, foreseen, rates);
}

// Would the volts fit if the bus had been awake in place of asleep, or the other way round?
void add_other_bus_state(const Measured& measured, const Explanation& explanation,
                         const harness::Assumptions& rates, diagnosis::Predictor& predictor,
                         std::vector<Slip>& slips) {
    Measured other = measured;
    other.volts->awake = !other.volts->awake;
    const auto chance = chance_in(other.situation, other, explanation, rates, predictor);
    if (chance.honest <= 0.02) return;
    slips.push_back({0.01 * chance.honest, other.volts->awake ? "a stale state: it fits a bus that is awake"
                                                              : "a stale state: it fits a bus that sleeps"});
}

// Would the reading fit if something had been apart, or together, that the log says otherwise?
void add_stale_states(const Harness& harness, const Measured& measured, const Explanation& explanation,
                      const harness::Assumptions& rates, diagnosis::Predictor& predictor,
                      std::vector<Slip>& slips) {
    const auto try_situation = [&](const diagnosis::Situation& situation, const std::string& words) {
        const auto chance = chance_in(situation, measured, explanation, rates, predictor);
        if (chance.honest > 0.02) slips.push_back({0.01 * chance.honest, words});
    };
    for (const Index part : measured.situation.apart) {
        diagnosis::Situation without = measured.situation;
        std::erase(without.apart, part);
        try_situation(without,
                      fmt::format("a stale state: it fits with {} plugged in", harness.parts[part].id));
    }
    for (const harness::Terminal* end :
         {&harness.terminals[measured.tips.red.terminal], &harness.terminals[measured.tips.black.terminal]}) {
        diagnosis::Situation with = measured.situation;
        if (std::binary_search(with.apart.begin(), with.apart.end(), end->part)) continue;
        with.apart.insert(std::upper_bound(with.apart.begin(), with.apart.end(), end->part), end->part);
        try_situation(with, fmt::format("a stale state: it fits with {} apart", harness.parts[end->part].id));
    }
    if (!measured.situation.repaired.empty()) {
        diagnosis::Situation before = measured.situation;
        before.repaired.pop_back();
        try_situation(before, "a stale state: it fits the bus as it was before the last repair");
    }
}

std::vector<std::string> slips_of(const Harness& harness, const Measured& measured,
                                  const Explanation& explanation, const harness::Assumptions& rates,
                                  diagnosis::Predictor& predictor) {
    const auto chance = chance_in(measured.situation, measured, explanation, rates, predictor);
    std::vector<Slip> slips;
    if (chance.slip > 0) {
        slips.push_back({chance.slip, measured.volts ? "a bad probe contact (shows 0 V or drifts)"
                                                     : "a bad probe contact (reads OL whatever is true)"});
    }
    add_wrong_wires(harness, measured, chance, slips);
    const bool on_terminals = measured.tips.red.kind == Contact::Kind::Terminal &&
                              measured.tips.black.kind == Contact::Kind::Terminal;
    if (on_terminals) add_stale_states(harness, measured, explanation, rates, predictor, slips);
    if (measured.volts) {
        add_other_bus_state(measured, explanation, rates, predictor, slips);
        slips.push_back({2e-9, "a figure misread or mistyped"});
    }
    // A figure that no honest circuit shows: something still feeds the bus, or it was not read as it stood.
    if (!measured.volts && measured.observation.shown == diagnosis::Shown::Ohm &&
        std::isfinite(measured.observation.ohm)) {
        slips.push_back({2e-9, "a figure misread or mistyped, or the battery still connected"});
    }
    slips.push_back({1e-9, "the drawing does not match the vehicle here"});
    std::stable_sort(slips.begin(), slips.end(),
                     [](const Slip& a, const Slip& b) { return a.weight > b.weight; });
    std::vector<std::string> words;
    for (Slip& slip : slips) words.push_back(std::move(slip.words));
    return words;
}

std::string expected_words(const Measured& measured, const Explanation& explanation,
                           diagnosis::Predictor& predictor) {
    if (measured.volts) {
        const auto predicted = diagnosis::predict_volts(predictor, explanation, measured.situation,
                                                        {measured.tips}, measured.volts->awake);
        const auto volt = at_rest(predicted.front());
        return !volt ? "nothing, the point is not there" : std::isnan(*volt) ? "anything" : volt_words(*volt);
    }
    const double ohm = predictor.ohms(explanation, measured.situation, {measured.tips}).front();
    return format_ohm(ohm < diagnosis::meter_limit_ohm ? ohm : electrics::open_circuit);
}

const Explanation& likeliest(const diagnosis::Belief& belief) {
    const auto top = std::max_element(belief.probability.begin(), belief.probability.end());
    return belief.explanations[static_cast<std::size_t>(top - belief.probability.begin())];
}

bool same_reading(const diagnosis::Measured& a, const diagnosis::Measured& b) {
    const bool same_way = a.tips == b.tips;
    const bool other_way = a.tips.red == b.tips.black && a.tips.black == b.tips.red;
    return (same_way || other_way) && a.situation == b.situation && a.power() == b.power();
}

}  // namespace

job::Sequence reread_of(const diagnosis::Measured& doubted, const diagnosis::Evidence& evidence,
                        const diagnosis::Belief& belief) {
    for (std::size_t i = 0; i < evidence.measured.size(); ++i) {
        const diagnosis::Measured& other = evidence.measured[i];
        if (other.sequence > doubted.sequence && belief.surprise[i] <= contradicts &&
            same_reading(doubted, other))
            return other.sequence;
    }
    return 0;
}

std::vector<Doubt> doubts(const Harness& harness, const diagnosis::Evidence& evidence,
                          const diagnosis::Belief& belief, const access::Costs& costs,
                          const access::Standing& standing, diagnosis::Predictor& predictor) {
    std::vector<Doubt> result;
    for (std::size_t i = 0; i < evidence.measured.size(); ++i) {
        if (belief.surprise[i] <= contradicts) continue;
        const Measured& measured = evidence.measured[i];
        const Explanation& explanation = likeliest(belief);
        const Contact& probe =
            measured.tips.red.kind == Contact::Kind::Terminal ? measured.tips.red : measured.tips.black;
        Doubt doubt;
        doubt.sequence = measured.sequence;
        doubt.red = name_of(harness, measured.tips.red);
        doubt.black = name_of(harness, measured.tips.black);
        doubt.shown = shown_words(measured);
        doubt.expected = expected_words(measured, explanation, predictor);
        doubt.chance_of_slip = belief.surprise[i];
        doubt.slips = slips_of(harness, measured, explanation,
                               evidence.rates ? *evidence.rates : harness.assumptions, predictor);
        for (std::size_t k = 0; k < measured.look_alikes.size(); ++k) {
            if (belief.wrong_wire[i][k] <= 0.5) continue;
            doubt.probably_on = terminal_name(harness, measured.look_alikes[k].terminal);
            doubt.chance_of_that = belief.wrong_wire[i][k];
        }
        if (probe.kind == Contact::Kind::Terminal) {
            doubt.recheck_minutes =
                costs.workshop().reach(costs.probe(probe.terminal), standing.place, standing.off);
        }
        result.push_back(std::move(doubt));
    }
    std::stable_sort(result.begin(), result.end(),
                     [](const Doubt& a, const Doubt& b) { return a.recheck_minutes < b.recheck_minutes; });
    return result;
}

std::vector<Doubt> unsettled_doubts(const Harness& harness, const diagnosis::Evidence& evidence,
                                    const diagnosis::Belief& belief, const access::Costs& costs,
                                    const access::Standing& standing, diagnosis::Predictor& predictor) {
    std::vector<Doubt> all = doubts(harness, evidence, belief, costs, standing, predictor);
    const job::Sequence newest = evidence.measured.empty() ? 0 : evidence.measured.back().sequence;
    std::erase_if(all, [&](const Doubt& doubt) {
        return std::any_of(evidence.measured.begin(), evidence.measured.end(), [&](const Measured& measured) {
            if (measured.sequence != doubt.sequence) return false;
            const job::Sequence again = reread_of(measured, evidence, belief);
            return again != 0 && again != newest;
        });
    });
    return all;
}

}  // namespace halfsplit::advice
