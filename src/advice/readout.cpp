#include "advice/readout.hpp"

#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/diagnosis/volts.hpp"

#include "advice/volt_outcomes.hpp"

#include <cmath>
#include <limits>
#include <optional>

namespace halfsplit::advice {

using diagnosis::Contact;
using diagnosis::Tips;
using electrics::Power;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double not_there = std::numeric_limits<double>::quiet_NaN();

double figure_of(const std::optional<double>& volt) {
    if (!volt) return not_there;
    return std::isnan(*volt) ? infinite : *volt;
}

std::optional<double> volt_of(double figure) {
    if (std::isnan(figure)) return std::nullopt;
    return std::isinf(figure) ? electrics::floating : figure;
}

}  // namespace

std::vector<double> Readout::figures(const diagnosis::Explanation& explanation,
                                     const diagnosis::Situation& situation, const std::vector<Tips>& tips) {
    std::vector<double> result;
    if (in_volts()) {
        for (const auto& predicted :
             diagnosis::predict_volts(predictor_, explanation, situation, tips, power_ == Power::Awake))
            result.push_back(figure_of(at_rest(predicted)));
    } else {
        for (const double ohm : predictor_.ohms(explanation, situation, tips))
            result.push_back(diagnosis::as_shown(ohm));
    }
    return result;
}

bool Readout::told_apart(double figure, double other) const {
    if (std::isnan(figure) || std::isnan(other)) return std::isnan(figure) != std::isnan(other);
    if (!in_volts()) return diagnosis::distinguishable(figure, other);
    return std::isfinite(figure) && std::isfinite(other) && diagnosis::distinguishable_volts(figure, other);
}

std::vector<int> Readout::outcomes(const std::vector<double>& figures,
                                   const std::vector<std::size_t>& heaviest_first,
                                   std::vector<OutcomeClass>& classes) const {
    if (!in_volts()) return classify(figures, heaviest_first, classes);
    std::vector<std::optional<double>> volts;
    for (const double figure : figures) volts.push_back(volt_of(figure));
    return classify_volts(volts, classes);
}

std::string Readout::in_words(const OutcomeClass& outcome, const Tips& tips) const {
    using Pulled = diagnosis::TipVolts::Pulled;
    if (!in_volts()) return advice::in_words(outcome);
    const bool of_one_line =
        tips.red.kind == Contact::Kind::Terminal && tips.black.kind == Contact::Kind::Ground;
    if (power_ != Power::Awake || !of_one_line) return advice::in_words(outcome, Pulled::Nowhere);
    const bool high = predictor_.harness().terminals[tips.red.terminal].line == harness::Line::High;
    return advice::in_words(outcome, high ? Pulled::Up : Pulled::Down);
}

}  // namespace halfsplit::advice
