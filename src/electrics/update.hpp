// A list of changes to a factorised circuit, made ready for any number of readings
// (Sherman-Morrison-Woodbury; the formulas stand in solver.hpp and operating_point.hpp).
#pragma once

#include "halfsplit/electrics/circuit.hpp"

#include "electrics/factorised.hpp"

#include <vector>

namespace halfsplit::electrics {

// Where the resistance seen across a changed edge (A'Gi A) comes from: the inverse, where one is kept, or a
// solve for a current along the edge, which leaves more digits at the price of two sparse substitutions.
// LookedUp: the inverse; six digits are left where an opened edge leaves only kilohms round a line of
// milliohms. Careful: the inverse, but such edges are solved for. Solved: always solved for.
enum class Core { LookedUp, Careful, Solved };

class Update {
  public:
    // Keeps a reference to `base`. Each edge may be changed once.
    Update(const Factorised& base, const std::vector<Change>& changes, Core core);

    // An edge now joins parts that were apart: the factorisation does not know how, and nothing below but
    // this may be asked.
    bool joins_components() const { return joins_components_; }
    // After all changes.
    bool connected(Node from, Node to) const { return component_[from] == component_[to]; }

    // The changes that count: all but those that alter no reading between nodes that still hang together.
    const std::vector<Change>& effective() const { return effective_; }
    // By node, after all changes.
    const std::vector<std::size_t>& components() const { return component_; }

    // (Di + A'Gi A)i times `across`, by effective change. What a voltage loses by the changes is the product
    // of that, where `across` holds the voltage across each edge before the changes, and the voltages across
    // the edges for one ampere between the tips.
    Vector solve(const Vector& across) const {
        if (across.size() == 0) return across;
        if (across.size() == 1) return across / core_(0, 0);
        return factor_.solve(across);
    }

  private:
    const Edge& edge_of(Eigen::Index i) const { return base_.circuit().edges[item(effective_, i).edge]; }
    void sort_out(const std::vector<Change>& changes);
    std::vector<std::size_t> components_without(const std::vector<std::size_t>& opened) const;
    void prepare_core(Core core);
    Real own_change(Eigen::Index i) const;
    void fill_core(bool look_up);
    bool cancels() const;

    const Factorised& base_;
    std::vector<Change> effective_;
    std::vector<std::size_t> component_;  // by node, after all changes
    bool joins_components_ = false;
    Matrix core_;  // Di + A'Gi A
    Eigen::PartialPivLU<Matrix> factor_;
};

}  // namespace halfsplit::electrics
