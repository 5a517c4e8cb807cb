// What advice is made of, on the small chain: belief, costs, standing at the start with the clip where it
// begins.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/diagnosis/belief.hpp"

#include "advice/arrangement.hpp"
#include "support/harnesses.hpp"

namespace halfsplit::test {

struct AdviceBench {
    const harness::Harness& harness = small_chain();
    diagnosis::Predictor predictor{harness, 0};
    diagnosis::Belief belief;
    access::Costs costs{harness, 0};
    harness::Index clip = harness.networks[0].clip;

    explicit AdviceBench(const diagnosis::Evidence& evidence = {}) : belief(infer(predictor, evidence)) {}

    advice::ArrangementInput standing() const {
        return {harness, 0, belief, costs, {harness.start, 0}, clip};
    }
};

// All answer: no short, then, which would have silenced everybody.
inline diagnosis::Evidence all_answer(bool comes_and_goes = false) {
    const harness::Harness& harness = small_chain();
    diagnosis::Evidence result{.comes_and_goes = comes_and_goes};
    result.scanned.push_back({1, {.answering = {find_part(harness, "GW"), find_part(harness, "M1")}}, {}});
    return result;
}

}  // namespace halfsplit::test
