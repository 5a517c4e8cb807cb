// The belief of a job as the planner's abstract problem, with what is needed to read its answer back.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/problem.hpp"

#include "advice/arrangement.hpp"
#include "advice/candidates.hpp"

#include <cstdint>
#include <vector>

namespace halfsplit::advice {

// States that each plan may expand before it answers with a bound in place of a proof: a count, not a time,
// so that the same job gets the same advice everywhere.
inline constexpr std::uint64_t most_states = 10'000;
// As many more may go into whether laying a part bare before all readings are taken is better.
inline constexpr std::uint64_t most_states_any_time = 2'500;
inline constexpr plan::Limits planning_limits{most_states, plan::Looks::AnyTime, most_states_any_time};

// From this chance on that the fault comes and goes it is planned for: either the loom is moved during every
// reading, which shows the fault, or a part of all faults shows nothing.
inline constexpr double worth_moving = 0.3;

struct PlannedReading {
    diagnosis::Tips tips;                // red is carried about; nothing where the arrangement is a scan
    std::size_t arrangement = 0;         // of Posed::arrangements
    access::Site site;                   // in the harness's places
    std::vector<OutcomeClass> outcomes;  // by outcome number of the plan's test
};

// A reading that was asked for before: ohms with the battery off, else volts; at rest, or with the loom
// moved.
struct AskedReading {
    diagnosis::Tips tips;
    electrics::Power power = electrics::Power::Off;
    bool moves_loom = false;
    bool operator==(const AskedReading&) const = default;
};

struct Posed {
    plan::Problem problem;                        // its places are whereabouts
    std::vector<Arrangement> arrangements;        // the first is how things stand
    std::vector<PlannedReading> readings;         // by test
    bool moves_loom = false;                      // during every reading
    std::vector<harness::Index> part_of_element;  // harness::none: nothing is wrong on this bus
    double given_up = 0;  // probability of what no look tells about: not in the problem
};

struct PoseInput {
    ArrangementInput standing;
    std::vector<AskedReading> barred;         // readings not asked for with things put together as now
    std::vector<harness::Index> unreachable;  // terminals no lead gets to, in any arrangement
    bool moves_loom = false;                  // by hand, during every reading
    std::vector<harness::Index> no_look{};    // parts that a look did not tell about
};

// Readings posed: see readings_in. The clip is a two-core lead on both lines of its point, so the line is
// chosen at no cost.
Posed pose(const PoseInput& input, diagnosis::Predictor& predictor);

}  // namespace halfsplit::advice
