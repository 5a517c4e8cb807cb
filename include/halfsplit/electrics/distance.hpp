// How far along a run a fault lies, from what was measured at its ends. Pure formulas; standard deviations
// go along by first-order propagation (the sum of squares of partial derivative times deviation).
//
// Every result is counted from the near end: the one where `near` was read, or where the bridge stands.
// Lengths may be in any unit; the result has the same. Each function is constant time and throws
// ImpossibleDistance, with the reason in words, for a figure that is negative or not finite, for two that add
// up to nothing, and for a result that lies outside the run by more than `most_deviations`. What is outside
// by less is set at the end of the run.
#pragma once

#include <cstdint>
#include <stdexcept>

namespace halfsplit::electrics {

// How a distance was measured.
enum class DistanceMethod : std::uint8_t {
    Capacitance,  // to an open, from both ends
    Ohms,         // to a short, from both ends
    Loop,         // to a short to ground: bridge at one end, both lines joined at the other
};

// Between which: one line and ground, or the two lines.
enum class DistanceLines : std::uint8_t { High, Low, Between };

// A figure and its standard deviation, in the same unit.
struct Uncertain {
    double value = 0, deviation = 0;
};

class ImpossibleDistance : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

inline constexpr double most_deviations = 3;

// Open: d = D * C_near / (C_near + C_far). Telephone outside-plant test set manual, p. 64, open by ratio.
Uncertain distance_by_capacitance(Uncertain length, Uncertain near, Uncertain far);

// Short: each end reads the fault and as many conductors as carry the current (2 from line to line, 1 from
// line to ground) up to it, so that d = L / 2 + (R_near - R_far) / (2 * conductors * r). The ohms of the
// fault cancel. Derived here; checked with a circuit simulator.
Uncertain distance_by_ohms(Uncertain length, Uncertain near, Uncertain far, Uncertain ohm_per_length,
                           double conductors);

// Murray loop: the bad line and a good one, joined at the far end, are two arms of a bridge in balance; Q is
// the arm next to the bad line. d = Q / (P + Q) * 2 L.
Uncertain distance_by_murray(Uncertain length, Uncertain p, Uncertain q);

// The same where the ohms of the whole loop were measured: the ohms from the near end to the fault.
Uncertain ohms_by_murray(Uncertain loop_ohm, Uncertain p, Uncertain q);
// Varley loop: two balances of a bridge with the fixed arms P and Q, one to the fault, one around the loop:
// x = P * (S_loop - S_fault) / (P + Q), the ohms from the near end to the fault.
Uncertain ohms_by_varley(Uncertain p, Uncertain q, Uncertain s_fault, Uncertain s_loop);
// Ohms along one conductor as a length of it.
Uncertain length_of(Uncertain ohm, Uncertain ohm_per_length);

}  // namespace halfsplit::electrics
