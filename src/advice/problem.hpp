// The belief of a job as the planner's abstract problem, with what is needed to read its answer back.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/plan/problem.hpp"

#include "advice/candidates.hpp"

#include <cstdint>
#include <vector>

namespace halfsplit::advice {

// States that each plan may expand before it answers with a bound in place of a proof: a count, not a time,
// so that the same job gets the same advice everywhere.
inline constexpr std::uint64_t most_states = 20'000;

struct PlannedReading {
    diagnosis::Tips tips;                // red is carried about, black is on the clip
    std::vector<OutcomeClass> outcomes;  // by outcome number of the plan's test
};

struct Posed {
    plan::Problem problem;
    std::vector<PlannedReading> readings;         // by test
    std::vector<harness::Index> part_of_element;  // harness::none: nothing is wrong on this bus
};

struct PoseInput {
    const harness::Harness& harness;
    harness::Index network;
    const diagnosis::Belief& belief;
    const access::Costs& costs;
    access::Standing standing;
    harness::Index clip;                       // point
    std::vector<diagnosis::Tips> unreachable;  // readings that could not be taken
};

// Readings posed: whole-bus readings at the clip (H to L, each line to ground and to supply) and continuity
// of each line from the clip to every other point. The clip stays where it is; it is a two-core lead on both
// lines of its point, so the line is chosen at no cost.
Posed pose(const PoseInput& input, diagnosis::Predictor& predictor);

}  // namespace halfsplit::advice
