// What can be believed after all that was read and seen: Bayes over explanations.
//
// Single faults and "nothing wrong" are always there. Explanations of two faults join them when no single one
// carries the readings, and after every repair, since it may not have been the only one needed. Every
// evidence counts in the situation it was taken in, so readings from before a repair stay evidence of the
// state they belong to.
#pragma once

#include "halfsplit/diagnosis/explanation.hpp"
#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/diagnosis/silence.hpp"
#include "halfsplit/diagnosis/volts.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace halfsplit::diagnosis {

struct Measured {
    std::uint64_t sequence = 0;  // record of the job it came from
    Tips tips;
    Observation observation;  // ohms, battery off
    Situation situation;
    bool moved = false;
    std::optional<VoltObservation> volts = std::nullopt;  // in place of `observation`, battery on

    electrics::Power power() const {
        if (!volts) return electrics::Power::Off;
        return volts->awake ? electrics::Power::Awake : electrics::Power::Asleep;
    }
};

struct Looked {
    std::uint64_t sequence = 0;
    harness::Index part = harness::none;
    bool faulty = false;
    Situation situation;
};

struct Scanned {
    std::uint64_t sequence = 0;
    Scan scan;
    Situation situation;
};

// The proof of a repair: complaint tried again and all that goes with it.
struct Proved {
    bool cured = false;
    Situation situation;
};

struct Evidence {
    std::vector<Measured> measured{};
    std::vector<Looked> looked{};
    std::vector<Scanned> scanned{};
    std::vector<Proved> proved{};
    std::vector<harness::Index> repaired{};  // all repairs so far
    electrics::Apart apart{};                // what is apart now
    bool comes_and_goes = false;             // the complaint is intermittent: good at rest is weaker evidence
};

struct Belief {
    std::vector<Explanation> explanations{};
    std::vector<double> probability{};  // by explanation, sums to 1
    std::vector<double> surprise{};     // by measured: chance that it was a slip or a wrong wire
    bool pairs = false;                 // two-fault explanations were weighed too
    Situation now;
};

// Deterministic. Cost: explanations x readings small dense operations.
Belief infer(Predictor& predictor, const Evidence& evidence);

// Probability that a part still holds a fault now, by part; a two-fault explanation counts for both.
std::vector<double> by_part(const Belief& belief, std::size_t parts);
// Probability that nothing is wrong on this bus now.
double nothing_wrong(const Belief& belief);

struct Suspect {
    Fault fault;  // ohms left out: explanations that differ by ohms or variant are one suspect
    double probability = 0;
};
// Every fault that may still be there, likeliest first.
std::vector<Suspect> suspects(const Belief& belief);

}  // namespace halfsplit::diagnosis
