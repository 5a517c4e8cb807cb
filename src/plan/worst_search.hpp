// The least worst case, by depth-first search over the states of a desk: the best step is the one after which
// the worst outcome is least. Minutes are plain here, not weighted.
#pragma once

#include "plan/desk.hpp"

#include <cstdint>
#include <limits>
#include <vector>

namespace halfsplit::plan {

// A state of knowing a set at a standing.
struct Whereabout {
    SetId set = 0;
    access::Standing standing;
};

// What a first step takes and where each of its outcomes leads.
struct WorstStep {
    Move move;
    double minutes = 0;  // of the step
    double weighted = 0;
    std::vector<Whereabout> next;
    double lower = 0;                           // of the worst case
    double group_worst = 0, group_minutes = 0;  // of a group laid bare in order, the second weighted
};

class WorstSearch {
  public:
    WorstSearch(Desk& desk, std::uint64_t most_expansions);

    // At most the least worst case; the least itself where solved().
    double lower(const Whereabout& at);
    bool solved(const Whereabout& at);
    // Works until the least worst case is known, or is known to be `budget` or more, or expansions run out.
    void settle(const Whereabout& at, double budget);
    // The step that the least worst case begins with. Only where solved().
    Move move(const Whereabout& at);
    // A plan that takes the step with the least bound each time: its worst case, and its first step.
    double follow(const Whereabout& at);
    Move followed_move(const Whereabout& at);

    bool exhausted() const { return expansions_ >= most_expansions_; }
    std::uint64_t expansions() const { return expansions_; }

    // Every first step, with bounds as they stand. Looks one by one, but for a large group that no test
    // splits.
    std::vector<WorstStep> steps(const Whereabout& at);

    static constexpr double infinity = std::numeric_limits<double>::infinity();

  private:
    struct State {
        double lower = -1;        // below 0: not seen yet
        double worst = infinity;  // of the step kept, exact where it is not above `lower`
        Move move;
        double followed = -1;
        Move followed_move;
    };

    StateId open(const Whereabout& at);
    double bound(const Whereabout& at) const;
    WorstStep step_of(const Whereabout& at, const Beginning& beginning);
    double try_step(const WorstStep& step, double budget);
    void expand(const Whereabout& at, StateId id, double budget);

    Desk& desk_;
    std::uint64_t most_expansions_, expansions_ = 0;
    double least_test_ = infinity;     // minutes at the site
    std::uint32_t most_outcomes_ = 2;  // of one test
    std::vector<State> states_;        // by StateId
};

}  // namespace halfsplit::plan
