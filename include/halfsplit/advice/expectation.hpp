// What a meter would read between two tips: on a sound bus, and for everything that is believed possible,
// grouped into outcomes that a meter can tell apart. Ohms with the battery off; with it on, volts of red
// against black while no module talks. Truthful readings: no slips, no wrong wires.
#pragma once

#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"

#include <string>
#include <vector>

namespace halfsplit::advice {

// Ohm or volt. Infinity is OL, in volts a line that floats; NaN says that the point is not on the vehicle.
struct FigureRange {
    double low = 0, high = 0;
};

struct ExpectedFault {
    std::string fault, in_words;  // PART:MODE; two faults joined by " and "
    FigureRange shows;            // over its ohms and the variants of the vehicle
    double probability = 0;
};

struct ExpectedOutcome {
    std::string shows;  // "closed, below 3 ohm", "open (OL)", "about 2.5 V", "the point is not there"
    FigureRange range;  // both 0 where the point is not there; in volts a line that floats counts as 0
    double chance = 0;
    bool sound = false;                 // a sound bus shows it too
    double nothing_wrong = 0;           // the share of `chance` in which nothing is wrong
    std::vector<PartChance> parts;      // what stays together in it, likeliest first
    std::vector<ExpectedFault> faults;  // the same fault by fault, likeliest first
};

struct Expectation {
    electrics::Power power = electrics::Power::Off;
    Spot red, black;
    std::vector<std::string> apart;         // part ids
    FigureRange sound;                      // over the variants of the vehicle
    std::vector<ExpectedOutcome> outcomes;  // likeliest first; those of no chance are left out
    std::vector<std::string> cautions;      // whole sentences
};

// Weighs with the belief as it stands; `apart` stands in place of what the belief says is apart now. Cost:
// one prediction for each explanation.
Expectation expect(diagnosis::Predictor& predictor, const diagnosis::Belief& belief,
                   const diagnosis::Tips& tips, const electrics::Apart& apart,
                   electrics::Power power = electrics::Power::Off);

// What the bus shows with certain faults in it and with none, on one variant.
struct FaultReading {
    double fault_ohm = 0;  // of a bad joint or short; 0 where the fault has none, or there are two
    double shows = 0;
    bool told = false;  // a meter tells it from a sound bus
};
struct FaultExpectation {
    electrics::Power power = electrics::Power::Off;
    Spot red, black;
    std::string variant;  // in words; empty where the file leaves nothing open
    std::vector<std::string> apart;
    double sound = 0;
    std::vector<FaultReading> readings;  // one for each figure of ohms that is tried under the fault's name
    std::vector<std::string> cautions;
};
FaultExpectation expect_faults(diagnosis::Predictor& predictor, std::size_t variant,
                               const std::vector<diagnosis::Fault>& faults, const diagnosis::Tips& tips,
                               const electrics::Apart& apart, electrics::Power power = electrics::Power::Off);

// Every point of the network: each line to the clip's same line, and H to L there. In volts: each line
// against ground, and H against L.
struct PointRow {
    std::string point, part_name;
    double h = 0, l = 0, h_to_l = 0;
    // Whether a meter tells the figure from that of a sound bus.
    bool h_told = false, l_told = false, across_told = false;
};
struct PointTable {
    electrics::Power power = electrics::Power::Off;
    std::string clip;
    bool single_line = false;  // rows have H alone; the rest is NaN
    std::string variant;
    std::vector<std::string> apart;
    std::vector<PointRow> rows;  // in order of point; points that are not on the variant have NaN
};
PointTable expect_table(diagnosis::Predictor& predictor, std::size_t variant,
                        const std::vector<diagnosis::Fault>& faults, harness::Index clip,
                        const electrics::Apart& apart, electrics::Power power = electrics::Power::Off);

// The same question as text for a circuit simulator: the figure `ohm_1` is the sound bus, those after it the
// bus with the faults in it, as expect_faults() lists them; in volts `volt_1_1` and `volt_1_2`, red and black
// against ground. The first line says which is which.
std::string expect_netlist(diagnosis::Predictor& predictor, std::size_t variant,
                           const std::vector<diagnosis::Fault>& faults, const diagnosis::Tips& tips,
                           const electrics::Apart& apart, electrics::Power power = electrics::Power::Off);

}  // namespace halfsplit::advice
