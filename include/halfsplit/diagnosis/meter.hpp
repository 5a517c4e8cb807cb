// How likely a reading is, given what the circuit would honestly show.
//
// Honest: the meter's own accuracy, leads, and what is not known of the circuit (terminators of 100 to 130
// ohm, transceivers, the ohms of the fault) around the prediction. Gross: a bad probe contact turns a value
// into OL, less often into a higher one (frequent, so "open" is weak evidence); a wrong wire turns it into
// that wire's reading where the wire is one of this network, else into anything, and at a tenth of the rate
// where no look-alike exists at that place. A buzzer's threshold differs from meter to meter (20 to 120 ohm
// in seven meters' manuals).
#pragma once

#include "halfsplit/electrics/circuit.hpp"
#include "halfsplit/harness/harness.hpp"

#include <cstdint>
#include <limits>
#include <vector>

namespace halfsplit::diagnosis {

enum class Shown : std::uint8_t { Ohm, Closed, Open };  // a figure, a beep, no beep

struct Observation {
    Shown shown = Shown::Ohm;
    double ohm = 0;  // for Shown::Ohm; infinity is OL
    bool operator==(const Observation&) const = default;
};

// What a circuit would show, and how far off that may be (one standard deviation) because some of its
// resistances are known within limits only. Infinity is OL; NaN says that the point is not on the vehicle.
struct Predicted {
    double ohm = 0;
    double spread = 0;
};

// A wire of the same colours beside a tip's: what it would show. NaN: another circuit's, nobody knows.
using LookAlikes = std::vector<Predicted>;

struct Likelihood {
    double honest = 0;               // as if contact and wire were right
    double slip = 0;                 // the part of `total` owed to a bad contact
    double wrong = 0;                // the part of `total` owed to a wrong wire
    double total = 0;                // what counts: mixture of the three, above 0
    std::vector<double> wrong_by{};  // the parts of `wrong`, by look-alike
};

// Above this a meter shows OL, where nobody says which meter. From memory: hand-held meters end at 40 to 60
// Mohm.
inline constexpr double meter_limit_ohm = 40e6;
// As such a meter shows it. NaN (not there) stays.
inline double as_shown(double ohm) {
    return ohm >= meter_limit_ohm ? electrics::open_circuit : ohm;
}

// `rates` holds the meter's figures as well. `wrong_by` is as long as `look_alikes`.
Likelihood likelihood(const Observation& observation, const Predicted& predicted,
                      const harness::Assumptions& rates, const LookAlikes& look_alikes = {});

// Whether a careful person with a meter could tell the two apart at one probing: apart by more than 4 ohm
// (leads, contacts, what is not known of a short) and 35 %, and not both above kilohms_from.
bool distinguishable(double ohm, double other_ohm);

// From here up to OL a figure mostly hangs on the transceivers of the modules that are still connected, each
// 10 to 100 kohm by make (ISO 11898-2): thirty in parallel have some hundreds of ohm. Nobody can say what it
// stands for.
inline constexpr double kilohms_from = 500;

}  // namespace halfsplit::diagnosis
