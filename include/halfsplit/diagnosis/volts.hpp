// How likely a reading in volts is, battery on, given what the circuit would honestly show.
//
// Honest: the bus at rest spreads around the prediction, and while it is awake a meter shows a mean of rest
// and traffic. A module that talks only ever pulls line H up (towards 3.5 V) and line L down (towards 1.5 V),
// so a talking bus reads H 2.5 to 3.5 and L 1.5 to 2.5 V, and a sound one is not refuted by it. Gross: a bad
// probe contact shows about 0 V, or drifts; a wrong wire shows its own volts where it is one of this network,
// else anything from 0 V to the supply. A line that
// hangs together with no module, ground or supply floats: it may show anything.
#pragma once

#include "halfsplit/diagnosis/explanation.hpp"
#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace halfsplit::diagnosis {

// Levels of a bus that talks, V (ISO 11898-2: dominant H 2.75 to 4.5, nominal 3.5, L 0.5 to 2.25, nominal
// 1.5, as quoted in data sheets of Texas Instruments (TCAN1043A) and Microchip (MCP2551); the nominal figures
// from memory).
inline constexpr double dominant_high_volt = 3.5, dominant_low_volt = 1.5;

// Of red against black, battery on.
struct VoltObservation {
    double volt = 0;
    bool awake = true;  // the bus; false: asleep
    bool operator==(const VoltObservation&) const = default;
};

// What the circuit holds at one tip while no module talks, and where one that talks pulls it.
struct TipVolts {
    enum class Pulled : std::uint8_t { Nowhere, Up, Down };
    std::optional<double> rest;  // V against ground; nothing: not on the variant; electrics::floating
    Pulled pulled = Pulled::Nowhere;
};

struct PredictedVolts {
    TipVolts red, black;
};

// Awake, each tip on a line of the network is pulled by traffic. Cost: one solve for all.
std::vector<PredictedVolts> predict_volts(Predictor& predictor, const Explanation& explanation,
                                          const Situation& situation, const std::vector<Tips>& tips,
                                          bool awake);

// Red against black without traffic; nothing where a tip is not on the variant, electrics::floating where
// either floats.
std::optional<double> at_rest(const PredictedVolts& predicted);

// `look_alikes` are wires of the same colours beside a tip's: what each would show; nothing at rest is
// another circuit's, nobody knows.
Likelihood likelihood(const VoltObservation& observation, const PredictedVolts& predicted,
                      const harness::Assumptions& rates, const std::vector<PredictedVolts>& look_alikes = {});

// Whether a careful person with a voltmeter could tell the two apart at one probing: more than 0.3 V and more
// than 20 % of the larger. 0.3 V, because a sleeping bus may stand 0.1 V off and the figure of a line that is
// held to ground or supply through the terminators shifts by as much again with contacts and leads; 20 %,
// because a bus at rest may stand at 2.0 to 3.0 V for nominal 2.5 (ISO 11898-2).
bool distinguishable_volts(double volt, double other_volt);

}  // namespace halfsplit::diagnosis
