#include "plan/under_cap.hpp"

#include "plan/capped_search.hpp"
#include "plan/policy_writer.hpp"

#include <algorithm>
#include <memory>

namespace halfsplit::plan {

using access::Standing;

namespace {

// Follows what the searches for worst cases found.
class UnderCap {
  public:
    UnderCap(Study& study, const Objective& objective)
        : study_(study),
          objective_(objective),
          worst_(study.desk, study.limits.states),
          root_{study.ground.sets.all(), study.problem.start},
          free_(study.desk.value(root_.set, root_.standing)) {}

    Policy run() {
        find();
        PolicyWriter writer(study_.problem, study_.outline, study_.ground,
                            [this](SetId set, const Standing& standing, double spent) {
                                return choose({set, standing}, spent);
                            });
        Policy policy = writer.write();
        Solution& solution = policy.solution;
        solution.looks = study_.limits.looks;
        solution.states = worst_.expansions() + states_ + study_.desk.expansions();
        solution.proven = proven_;
        solution.lower_bound = proven_ ? solution.best.expected_minutes
                                       : std::min(solution.best.expected_minutes,
                                                  study_.desk.lower_bound(root_.set, root_.standing));
        policy.worst_lower_bound = std::min(worst_.lower(root_), solution.best.worst_minutes);
        return policy;
    }

  private:
    void find() {
        const double cap = objective_.worst_at_most;
        if (!objective_.least_worst) {
            worst_.settle(root_, cap + tie_minutes);
            if (worst_.lower(root_) <= cap + tie_minutes && keep(cap, study_.limits.states)) {
                proven_ = !capped_->exhausted();
                return;
            }
        }
        worst_.settle(root_, WorstSearch::infinity);
        if (worst_.solved(root_)) {
            keep(worst_.lower(root_), study_.limits.states);
            proven_ = capped_ && !capped_->exhausted();
        } else {
            narrow();
        }
    }

    // A search under this cap; kept when it finds a plan.
    bool keep(double cap, std::uint64_t states) {
        auto search = std::make_unique<CappedSearch>(study_.desk, worst_, states);
        const auto best = search->best(root_, cap);
        states_ += search->expansions();
        if (!best) return false;
        capped_ = std::move(search);
        cap_ = cap;
        kept_worst_ = best->plan.worst;
        return true;
    }

    // The least worst case is not known: caps between its bound and what is known are tried by halves.
    void narrow() {
        constexpr int trials = 5;
        double low = worst_.lower(root_);
        kept_worst_ = std::min(free_.worst, worst_.follow(root_));
        for (int i = 0; i < trials && low < kept_worst_ - tie_minutes; ++i) {
            const double cap = (low + kept_worst_) / 2;
            if (!keep(cap, study_.limits.states / trials)) low = cap;
        }
    }

    Move choose(const Whereabout& at, double spent) {
        if (capped_)
            if (const auto best = capped_->best(at, cap_ - spent)) return best->move;
        return worst_.follow(root_) < free_.worst ? worst_.followed_move(at)
                                                  : study_.desk.move(at.set, at.standing);
    }

    Study& study_;
    const Objective& objective_;
    WorstSearch worst_;
    Whereabout root_;
    Plan free_;  // without any cap
    std::unique_ptr<CappedSearch> capped_;
    double cap_ = 0, kept_worst_ = 0;
    std::uint64_t states_ = 0;
    bool proven_ = false;
};

}  // namespace

Policy under_cap(Study& study, const Objective& objective) {
    study.desk.settle(study.ground.sets.all(), study.problem.start, Search::infinity);
    return UnderCap(study, objective).run();
}

}  // namespace halfsplit::plan
