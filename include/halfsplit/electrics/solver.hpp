// Resistance between two points of a circuit, and the same after a change, from one factorisation.
//
// With G the conductance matrix (one node of each connected part held at zero), u the unit current in at one
// tip and out at the other, A the incidence columns of the changed edges and D the changes of their
// conductances:
//     R' = u'Gi u - (u'Gi A) (Di + A'Gi A)i (A'Gi u)        (i: inverse; Sherman-Morrison-Woodbury)
// Whether the tips still hang together, and whether a changed edge is a bridge (which carries nothing between
// tips on one side of it), is decided on the graph, never by a tolerance.
#pragma once

#include "halfsplit/electrics/circuit.hpp"

#include <memory>
#include <vector>

namespace halfsplit::electrics {

class Factorised;  // private to the electrics

// A resistance, and how much of it stands in single edges. With one ampere through the tips and i through an
// edge of r ohm, the edge's portion is r i^2. The portions of all edges add up to the resistance (Tellegen),
// and each is also what the resistance changes by for a relative change of its r (Cohn): d ohm / d ln r.
struct Portions {
    double ohm = 0;
    std::vector<double> of;  // ohm, by edge asked for; all 0 where nothing connects the tips
};

class Solver {
  public:
    // Sparse LDL' factorisation (Eigen), in extended precision: an open in a line of milliohms that is
    // bypassed by a transceiver of kilohms cancels seven digits. Throws std::invalid_argument for an edge
    // whose end is no node or whose resistance is not positive.
    explicit Solver(Circuit circuit);
    ~Solver();
    Solver(Solver&&) noexcept;
    Solver& operator=(Solver&&) noexcept;

    const Circuit& circuit() const;

    // Ohms between the tips; infinity when nothing connects them, 0 for one and the same node.
    double resistance(Tips tips) const;
    // The same with some edges changed; no refactorisation, unless a change joins parts that
    // were apart. Cost: a few dense operations of the number of
    // changes, plus one walk of the graph where something is taken apart.
    double resistance(Tips tips, const std::vector<Change>& changes) const;
    // Many at once: result[t] for tips[t]. What the changes take is done once.
    std::vector<double> resistances(const std::vector<Tips>& tips, const std::vector<Change>& changes) const;
    // With the portions of the edges named. Cost: for each of them as much again.
    std::vector<Portions> portions(const std::vector<Tips>& tips, const std::vector<Change>& changes,
                                   const std::vector<std::size_t>& edges) const;

    const Factorised& factorised() const { return *factorised_; }

  private:
    std::unique_ptr<const Factorised> factorised_;
};

}  // namespace halfsplit::electrics
