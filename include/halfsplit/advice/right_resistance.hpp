// What H to L shows at rest on a sound bus of this vehicle: what the proof of a repair is held against.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <optional>

namespace halfsplit::advice {

struct RightResistance {
    double low_ohm = 0, high_ohm = 0;   // what is accepted; infinity: no upper bound
    std::optional<double> nominal_ohm;  // all terminators together; none where options leave it open
    bool by_modules = false;            // there is no terminator, whatever is fitted
    bool accepts(double h_to_l_ohm) const;
};

// With terminators 0.9 to 1.15 of all of them together: 54 to 69 ohm where 60 is nominal (common practice, no
// source: makers' bands differ by a few ohm). Without, as in some rings, what the modules let through: 10 to
// 100 kohm each (ISO 11898-2, differential internal resistance). Options that are not known: what any of them
// would show. None on a single line, and for a kind of bus whose terminators are not known. Linear in the
// parts.
std::optional<RightResistance> right_resistance(const harness::Harness& harness, harness::Index network);

}  // namespace halfsplit::advice
