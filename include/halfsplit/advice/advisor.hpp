// What to do next in a job: from harness and state to belief, from belief to an abstract problem, from its
// solution back to a recommendation. The one place where all four meet.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/advice/aim.hpp"
#include "halfsplit/advice/card.hpp"
#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/advice/survey.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/plan/rules.hpp"

#include <vector>

namespace halfsplit::advice {

class Advisor {
  public:
    // Keeps a reference to the harness.
    Advisor(const harness::Harness& harness, harness::Index network);

    const harness::Harness& harness() const { return harness_; }
    harness::Index network() const { return network_; }

    // Deterministic; plans only when the job has come so far that a reading or a look is next.
    Recommendation advise(const job::State& state, const Aim& aim = {});

    // What is left of that job, by the plan as it stands. Nothing of it is advice: intake, scan and safe
    // state may come first.
    Left left(const job::State& state, const Aim& aim = {});

    // The whole plan of what is left, as in left(); steps while hunting.
    Card card(const job::State& state, const Aim& aim = {});

    // What is left by that plan, for a fault that is there, and by the rules that people go by without one;
    // nothing where no hunt goes on.
    std::vector<plan::ByRule> beside_rules(const job::State& state, const Aim& aim = {});

    // What can be believed in that state; also what review and rehearse build on.
    diagnosis::Belief believe(const job::State& state);

  private:
    const harness::Harness& harness_;
    harness::Index network_;
    diagnosis::Predictor predictor_;
    access::Costs costs_;
};

}  // namespace halfsplit::advice
