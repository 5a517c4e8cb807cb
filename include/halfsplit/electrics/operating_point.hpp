// Voltages of a circuit in which some nodes are held at a voltage, and the same after a change, from one
// factorisation.
//
// In the matrix all held nodes are one reference, and an edge that ends at a held node has that node's
// voltage in series. With G the conductance matrix of the other nodes, x their voltages before the change, n
// the unit current in at the node asked for and out at the reference, A the incidence columns of the changed
// edges, D the changes of their conductances, and w the voltages across these edges before the change, what
// is in series with them included:
//     x'_n = x_n - (n'Gi A) (Di + A'Gi A)i w              (i: inverse; Sherman-Morrison-Woodbury)
// Whether a node hangs together with a held one is decided on the graph, never by a tolerance.
#pragma once

#include "halfsplit/electrics/circuit.hpp"

#include <limits>
#include <memory>
#include <vector>

namespace halfsplit::electrics {

// Volt of a node that hangs together with no held one: whatever a meter shows there says nothing. Not a
// number: ask with std::isnan.
inline constexpr double floating = std::numeric_limits<double>::quiet_NaN();

class OperatingPoint {
  public:
    // In extended precision, as the solver. Throws std::invalid_argument for an edge whose end is no node or
    // whose resistance is not positive, and for a held node that is not there, is held twice, or not at a
    // finite voltage.
    OperatingPoint(Circuit circuit, std::vector<Held> held);
    ~OperatingPoint();
    OperatingPoint(OperatingPoint&&) noexcept;
    OperatingPoint& operator=(OperatingPoint&&) noexcept;

    // Volt at each node, against the zero of the held voltages; `floating` where nothing holds it. No
    // refactorisation, unless a change joins parts that were apart and hang together with no held node. Each
    // edge may be changed once. Cost: a few dense operations of the number of changes, plus one walk of
    // the graph.
    std::vector<double> volts(const std::vector<Node>& nodes, const std::vector<Change>& changes = {}) const;

  private:
    struct Implementation;
    std::unique_ptr<const Implementation> implementation_;
};

}  // namespace halfsplit::electrics
