// What to do next in a job: from harness and state to belief, from belief to an abstract problem, from its
// solution back to a recommendation. The one place where all four meet.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/state.hpp"

namespace halfsplit::advice {

class Advisor {
  public:
    // Keeps a reference to the harness.
    Advisor(const harness::Harness& harness, harness::Index network);

    const harness::Harness& harness() const { return harness_; }
    harness::Index network() const { return network_; }

    // Deterministic; plans only when the job has come so far that a reading or a look is next.
    Recommendation advise(const job::State& state);

    // What can be believed in that state; also what review and rehearse build on.
    diagnosis::Belief believe(const job::State& state);

  private:
    const harness::Harness& harness_;
    harness::Index network_;
    diagnosis::Predictor predictor_;
    access::Costs costs_;
};

}  // namespace halfsplit::advice
