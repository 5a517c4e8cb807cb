// A list of changes to a factorised circuit, made ready for any number of readings
// (Sherman-Morrison-Woodbury; the formulas stand in solver.hpp and operating_point.hpp).
#pragma once

#include "halfsplit/electrics/circuit.hpp"

#include "electrics/factorised.hpp"

#include <vector>

namespace halfsplit::electrics {

// Where the resistance seen across a changed edge (A'Gi A) comes from: the inverse, where one is kept, or a
// solve for a current along the edge, which leaves more digits at the price of two sparse substitutions. From
// the inverse, an edge that is opened and leaves only kilohms round a line of milliohms is solved for as
// well.
enum class Core { FromInverse, Solved };

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

    // What a voltage loses by the changes: left' (Di + A'Gi A)i right. Both are by effective change:
    // `left` the voltage across its edge for one ampere between the tips, `right` the voltage across it
    // before the changes.
    template <typename Left, typename Right>
    Real correction(Left left, Right right) const {
        const auto count = static_cast<Eigen::Index>(effective_.size());
        if (count == 0) return 0;
        if (count == 1) return left(0) * right(0) / core_(0, 0);
        Vector lefts(count);
        Vector rights(count);
        for (Eigen::Index i = 0; i < count; ++i) {
            lefts[i] = left(static_cast<std::size_t>(i));
            rights[i] = right(static_cast<std::size_t>(i));
        }
        return lefts.dot(factor_.solve(rights));
    }
    // (Di + A'Gi A)i times `rights`, by effective change.
    Vector solve(const Vector& rights) const { return rights.size() == 0 ? rights : factor_.solve(rights); }

  private:
    const Edge& edge_of(Eigen::Index i) const { return base_.circuit().edges[effective_[i].edge]; }
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
