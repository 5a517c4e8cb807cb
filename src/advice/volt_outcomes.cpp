#include "advice/volt_outcomes.hpp"

#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace halfsplit::advice {

using diagnosis::TipVolts;

namespace {

double value(double at_rest) {
    return std::isnan(at_rest) ? 0 : at_rest;
}

// To the tenth of a volt: what is told apart is.
std::string about(double volt) {
    const double rounded = std::round(volt * 10) / 10;
    return format_volt(rounded == 0 ? 0 : rounded);
}

}  // namespace

std::vector<int> classify_volts(const std::vector<std::optional<double>>& at_rest,
                                std::vector<OutcomeClass>& classes) {
    std::vector<std::pair<double, std::size_t>> order{{0, at_rest.size()}};  // 0 V, whoever shows it
    for (std::size_t i = 0; i < at_rest.size(); ++i) {
        if (at_rest[i]) order.emplace_back(value(*at_rest[i]), i);
    }
    std::sort(order.begin(), order.end());
    std::vector<int> outcome(at_rest.size() + 1, 0);
    for (const auto& [volt, i] : order) {
        if (classes.empty() || diagnosis::distinguishable_volts(classes.back().high_volt, volt))
            classes.push_back({.volts = true, .low_volt = volt});
        classes.back().high_volt = volt;
        outcome[i] = static_cast<int>(classes.size()) - 1;
    }
    outcome.pop_back();
    if (order.size() <= at_rest.size()) {
        classes.push_back({.not_there = true, .volts = true});
        for (std::size_t i = 0; i < at_rest.size(); ++i) {
            if (!at_rest[i]) outcome[i] = static_cast<int>(classes.size()) - 1;
        }
    }
    return outcome;
}

int zero_outcome(const std::vector<OutcomeClass>& classes) {
    const auto zero = std::find_if(classes.begin(), classes.end(), [](const OutcomeClass& one) {
        return !one.not_there && one.low_volt <= 0 && one.high_volt >= 0;
    });
    return static_cast<int>(zero - classes.begin());
}

std::string in_words(const OutcomeClass& outcome, TipVolts::Pulled pulled) {
    if (outcome.not_there) return "the point is not there";
    const std::string low = about(outcome.low_volt), high = about(outcome.high_volt);
    constexpr double one_figure = 0.15;
    const bool narrow = outcome.high_volt - outcome.low_volt < one_figure;
    const bool holds_zero = outcome.low_volt <= 0 && outcome.high_volt >= 0;
    std::string rest = narrow ? "about " + (holds_zero ? about(0) : high) : low + " to " + high;
    // Only a line that nothing holds elsewhere is moved as far as that.
    const bool free =
        outcome.low_volt > diagnosis::dominant_low_volt && outcome.high_volt < diagnosis::dominant_high_volt;
    if (!free || pulled == TipVolts::Pulled::Nowhere) return rest;
    return pulled == TipVolts::Pulled::Up
               ? fmt::format("{}, with traffic up to {}", rest, format_volt(diagnosis::dominant_high_volt))
               : fmt::format("{}, with traffic down to {}", rest, format_volt(diagnosis::dominant_low_volt));
}

}  // namespace halfsplit::advice
