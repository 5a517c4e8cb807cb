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

    const Factorised& factorised() const { return *factorised_; }

  private:
    std::unique_ptr<const Factorised> factorised_;
};

}  // namespace halfsplit::electrics
