// The way along the pair from one point to another as things stand, where nothing hangs on it but itself:
// what a distance can be measured along. And where on it a fault lies, from what was measured at its ends.
#pragma once

#include "halfsplit/electrics/assembly.hpp"
#include "halfsplit/electrics/distance.hpp"
#include "halfsplit/harness/harness.hpp"

#include <cstdint>
#include <variant>
#include <vector>

namespace halfsplit::electrics {

// One edge of the way: a wire, or a contact, crimp or bridge, which has no length.
struct StretchItem {
    std::size_t edge = 0;
    harness::Index part = harness::none;
    double from_m = 0, to_m = 0;      // from the first end
    double from_ohm = 0, to_ohm = 0;  // along this line
};

struct Stretch {
    std::vector<StretchItem> high, low;  // in order from the first end; empty where the line is not there
    double length_m = 0;
};

// Why there is none.
struct Obstacle {
    enum class Kind : std::uint8_t {
        NotThere,   // an end is not on this vehicle
        NoWay,      // no wire leads from one end to the other
        Between,    // `parts`, modules, lie on the way itself
        Branched,   // something branches off at `parts`
        Connected,  // the bus goes on at an end, and `parts`, terminators and modules, hang on it
        GoesOn,     // the same, but nothing hangs on it
        NoLength,   // `parts` are runs without a length
    } kind = Kind::NoWay;
    std::vector<harness::Index> parts;
    std::vector<harness::Index> unplug;  // Connected, GoesOn: what would part it at the ends; may be empty
};

// From point to point of the assembly's network. Both lines count for what hangs on the way, whichever is
// measured. Linear in the circuit.
std::variant<Stretch, Obstacle> find_stretch(const harness::Harness& harness, const Assembly& assembly,
                                             const Apart& apart, harness::Index from, harness::Index to);

// Standard deviations behind a distance. Common practice, no source.
struct DistanceTolerance {
    double length = 0.05;                    // share: lengths on a drawing
    double farad = 10e-12, of_farad = 0.02;  // leads and stray capacitance; share
    double ohm = 0.05, of_ohm = 0.01;        // leads and contacts; share
    double of_copper = 0.06;                 // share: 15 K from 20 degC (IEC 60028), section
    double of_arm = 0.01;                    // share: an arm of a bridge
    double metres = 0.05;                    // where the tips truly sit
};

// Metres from the first end. `first` and `second`: farad or ohm at the first and the second end; of a loop,
// the arms P and Q of the bridge at the first end, any unit. Ohms are counted along the way's own wires and
// contacts, so that sections may differ. Throws ImpossibleDistance as distance.hpp says, also where two
// readings in ohm are together less than the wire alone has, and for a loop between the lines.
Uncertain locate(const Stretch& stretch, DistanceMethod method, DistanceLines lines, double first,
                 double second, const DistanceTolerance& tolerance = {});

// The line of which the metres are told: line L where L alone was measured.
const std::vector<StretchItem>& measured_line(const Stretch& stretch, DistanceLines lines);

}  // namespace halfsplit::electrics
