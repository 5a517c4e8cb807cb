// The least expected minutes among plans whose worst case keeps a cap. Where the plan without a cap keeps it,
// that is the one; a plan found under one cap serves every other between its worst case and that cap.
#pragma once

#include "plan/worst_search.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace halfsplit::plan {

struct CappedPlan {
    Plan plan;  // minutes weighted
    Move move;
};

class CappedSearch {
  public:
    CappedSearch(Desk& desk, WorstSearch& worst, std::uint64_t most_expansions)
        : desk_(desk), worst_(worst), most_expansions_(most_expansions) {}

    // Nothing where no plan keeps the cap, or expansions ran out before one was found.
    std::optional<CappedPlan> best(const Whereabout& at, double cap);
    // Expansions ran out: what was found may not be the best, and what was not found may be there.
    bool exhausted() const { return expansions_ >= most_expansions_; }
    std::uint64_t expansions() const { return expansions_; }

  private:
    struct Known {
        double cap = 0;  // the best for every cap from its worst case up to here
        CappedPlan best;
    };

    std::optional<CappedPlan> without_cap(const Whereabout& at);
    std::optional<CappedPlan> search(const Whereabout& at, double cap);
    std::optional<Plan> value(const WorstStep& step, double cap, double budget);
    double lower(const WorstStep& step);

    Desk& desk_;
    WorstSearch& worst_;
    std::uint64_t most_expansions_, expansions_ = 0;
    std::vector<std::vector<Known>> known_;  // by StateId
};

}  // namespace halfsplit::plan
