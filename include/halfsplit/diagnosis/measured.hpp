// A reading with its place, and how likely it is: ohms with the battery off, volts with it on.
#pragma once

#include "halfsplit/diagnosis/explanation.hpp"
#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/diagnosis/volts.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace halfsplit::diagnosis {

// A wire of the same colours that a tip may have been on by mistake.
struct LookAlike {
    bool red = false;  // the red tip, or the black one
    harness::Index terminal = harness::none;
    bool operator==(const LookAlike&) const = default;
};

struct Measured {
    std::uint64_t sequence = 0;  // record of the job it came from
    Tips tips;
    Observation observation;  // ohms, battery off
    Situation situation;
    bool provoked = false;  // while the loom was moved, or wet
    std::vector<LookAlike> look_alikes{};
    std::optional<VoltObservation> volts = std::nullopt;  // in place of `observation`, battery on

    electrics::Power power() const;
    bool operator==(const Measured&) const = default;
};

// Where the tips were, and then where they were if one was on the look-alike beside it, in that order.
std::vector<Tips> possible_tips(const Measured& measured);

// What a meter is to show between two tips; of the two, that which the power allows.
struct Foreseen {
    Predicted ohms{};
    PredictedVolts volts{};
};

// One for each pair of tips. Cost: one solve for all.
std::vector<Foreseen> foresee(Predictor& predictor, const Explanation& explanation,
                              const Situation& situation, electrics::Power power,
                              const std::vector<Tips>& tips);

// `foreseen` is of possible_tips(): the reading's own first.
Likelihood likelihood(const Measured& measured, std::span<const Foreseen> foreseen,
                      const harness::Assumptions& rates);

}  // namespace halfsplit::diagnosis
