// How likely a reading is, given what the circuit would honestly show.
//
// Honest: meter, lead and terminator tolerance around the prediction. Gross: a bad probe contact turns a
// value into OL, less often into a higher one (frequent, so "open" is weak evidence); a wrong wire turns it
// into anything, at a tenth of the rate where no look-alike exists at that place. A buzzer's threshold
// differs from meter to meter (20 to 120 ohm in seven meters' manuals).
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <cstdint>

namespace halfsplit::diagnosis {

enum class Shown : std::uint8_t { Ohm, Closed, Open };  // a figure, a beep, no beep

struct Observation {
    Shown shown = Shown::Ohm;
    double ohm = 0;            // for Shown::Ohm; infinity is OL
    bool look_alikes = false;  // wires of the same colours at the place of a tip
};

struct Likelihood {
    double honest = 0;  // as if contact and wire were right
    double slip = 0;    // the part of `total` owed to a bad contact
    double wrong = 0;   // the part of `total` owed to a wrong wire
    double total = 0;   // what counts: mixture of the three, above 0
};

// Above this a meter shows OL. From memory: hand-held meters end at 40 to 60 Mohm.
inline constexpr double meter_limit_ohm = 40e6;

Likelihood likelihood(const Observation& observation, double predicted_ohm,
                      const harness::Assumptions& rates);

// Whether a careful person with a meter could tell the two apart at one probing: apart by more than 1.5 ohm
// and 35 %.
bool distinguishable(double ohm, double other_ohm);

}  // namespace halfsplit::diagnosis
