// Many faults, one after the other, in one and the same setting: some edges stand changed (what is apart),
// and the tips are given. What that takes is worked out once; each fault is then a change of a few edges on
// top.
//
// With Gs the conductance matrix as things stand, u the unit current of a pair of tips, a the incidence
// column of one more edge and d the change of its conductance:
//     R' = u'Gsi u - (u'Gsi a)(a'Gsi u) / (1/d + a'Gsi a)        (i: inverse; Sherman-Morrison)
// and Gsi is itself the solver's inverse with the standing changes taken in (Woodbury).
#pragma once

#include "halfsplit/electrics/circuit.hpp"
#include "halfsplit/electrics/solver.hpp"

#include <memory>
#include <vector>

namespace halfsplit::electrics {

// Adds changes to others. Of two changes to one edge the higher resistance counts: an open outweighs a bad
// joint.
void merge(std::vector<Change>& all, const std::vector<Change>& more);

class Setting {
  public:
    // Keeps a reference to the solver. Cost: a walk of the graph where a standing change takes something
    // apart, and a few operations for each pair of tips.
    Setting(const Solver& solver, std::vector<Change> standing, std::vector<Tips> tips);
    ~Setting();
    Setting(Setting&&) noexcept;

    // Ohms by tips, with these changes on top of the standing ones, as Solver::resistances would say. Where
    // both change an edge, the higher resistance counts. Cost: for each pair of tips a few operations for
    // each change. No walk of the graph, unless something is taken apart or joined that is not as things
    // stand.
    std::vector<double> resistances(const std::vector<Change>& changes) const;

  private:
    struct Implementation;
    std::unique_ptr<const Implementation> implementation_;
};

}  // namespace halfsplit::electrics
