// What was done held against what was advised: followed, or left, and at what cost.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/advice/review.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"
#include "halfsplit/job/state.hpp"

#include <optional>
#include <string>
#include <vector>

namespace halfsplit::advice {

// Both ways round are one reading.
bool same_tips(const job::Reading& reading, const std::string& red, const std::string& black);

// The step of an advice in short: "X2.a:1 to DS:6", "look at X1", "verify".
std::string step_words(const Recommendation& advice);

class AdviceBook {
  public:
    // Keeps references to both.
    AdviceBook(const harness::Harness& harness, harness::Index network, const access::Costs& costs);

    // An advice as logged, given in that state. False when its text cannot be read.
    bool add(job::Sequence sequence, const job::Recommended& logged, const job::State& state);

    // The first that counts and advised a reading or a look, and what had been spent when it was given.
    struct First {
        job::Sequence sequence;
        double expected_minutes, worst_minutes, minutes_spent;
    };
    std::optional<First> first(const job::State& final_state) const;

    // What was advised last in that state and is not yet done; empty when there is nothing.
    std::string pending(const job::State& state) const;

    // Sets the step's heed, advice and advised; the detour where it is one. `before`: the state the step was
    // entered in.
    std::optional<Detour> judge(ReviewStep& step, const job::State& before) const;

  private:
    struct Given {
        job::Sequence sequence;
        Recommendation advice;
        access::Standing standing;
        harness::Index clip;
        double minutes_spent;
    };

    const Given* standing_advice(const job::State& state) const;
    void set_cost(Detour& detour, const Given& given, const job::Event& done) const;

    const harness::Harness& harness_;
    harness::Index network_;
    const access::Costs& costs_;
    std::vector<Given> given_;
};

}  // namespace halfsplit::advice
