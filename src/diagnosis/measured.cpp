#include "halfsplit/diagnosis/measured.hpp"

namespace halfsplit::diagnosis {

using electrics::Power;

Power Measured::power() const {
    if (!volts) return Power::Off;
    return volts->awake ? Power::Awake : Power::Asleep;
}

std::vector<Tips> possible_tips(const Measured& measured) {
    std::vector<Tips> result{measured.tips};
    for (const LookAlike& wire : measured.look_alikes) {
        result.push_back(measured.tips);
        (wire.red ? result.back().red : result.back().black) = diagnosis::at(wire.terminal);
    }
    return result;
}

std::vector<Foreseen> foresee(Predictor& predictor, const Explanation& explanation,
                              const Situation& situation, Power power, const std::vector<Tips>& tips) {
    std::vector<Foreseen> result;
    if (power == Power::Off) {
        for (const Predicted& ohms : predictor.figures(explanation, situation, tips))
            result.push_back({.ohms = ohms});
        return result;
    }
    for (const PredictedVolts& volts :
         predict_volts(predictor, explanation, situation, tips, power == Power::Awake))
        result.push_back({.volts = volts});
    return result;
}

Likelihood likelihood(const Measured& measured, std::span<const Foreseen> foreseen,
                      const harness::Assumptions& rates) {
    const auto beside = foreseen.subspan(1);
    if (measured.volts) {
        std::vector<PredictedVolts> wires;
        for (const Foreseen& wire : beside) wires.push_back(wire.volts);
        return likelihood(*measured.volts, foreseen.front().volts, rates, wires);
    }
    LookAlikes wires;
    for (const Foreseen& wire : beside) wires.push_back(wire.ohms);
    return likelihood(measured.observation, foreseen.front().ohms, rates, wires);
}

}  // namespace halfsplit::diagnosis
