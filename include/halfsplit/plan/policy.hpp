// A whole plan, step by step, for truthful readings: what to do first, and after each outcome what next. For
// a card on paper, and for how the minutes of a hunt are spread.
#pragma once

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/objective.hpp"
#include "halfsplit/plan/problem.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::plan {

struct PolicyStep {
    Step step = Step::Done;
    std::size_t index = 0;  // test, or element
    double minutes = 0;     // of this step, coming from the one before
    double chance = 0;      // of coming to it; of all at the first
    struct Branch {
        // Of a test; of a look: 0 it is the fault (the hunt is over), 1 it is not, 2 it is, and mending it
        // did not cure.
        int outcome = 0;
        double chance = 0;
        std::size_t next = 0;  // into Policy::steps; Policy::over where the hunt is over
    };
    std::vector<Branch> branches;       // in order of outcome
    std::vector<std::size_t> suspects;  // hypotheses, in order
};

struct Policy {
    static constexpr std::size_t over = static_cast<std::size_t>(-1);
    std::vector<PolicyStep> steps;  // the first is the first; each before its branches. Empty: nothing to do.
    Solution solution;              // what is known of its worth
    // By hypothesis: from the start until its part was seen (where it goes on: the last of them), or it was
    // isolated.
    std::vector<double> minutes;
    // No plan has a worst case below this; 0 where the worst case was no objective.
    double worst_lower_bound = 0;
};

// The plan that solve() values: where the states did not suffice, most information per minute goes on. As
// deep as the longest plan; as many steps as there are states on it, at most hypotheses x 2. Deterministic.
//
// With an objective beside the expected minutes: looks at any time, `limits.states` for each of three
// searches (no cap, worst case, cap). `solution.proven`: no plan is better at it, and `solution.lower_bound`
// is about the plans that keep it. A cap that no plan keeps gives the plan with the least worst case, which
// is then above it. Not proven: the least worst case may be lower still, down to `worst_lower_bound`, or a
// plan that keeps the cap may be there although this one does not.
//
// Throws as require_sound.
Policy policy(const Problem& problem, const Limits& limits = {}, const Objective& objective = {});

// The least minutes within which the hunt ends with this probability (0 to 1), under the policy.
double minutes_within(const Policy& policy, const Problem& problem, double probability);
// The same from minutes by hypothesis; those below 0 are not known and count as longer than all others. The
// longest known where these do not suffice, 0 where there are none.
double minutes_within(const std::vector<double>& minutes, const Problem& problem, double probability);

}  // namespace halfsplit::plan
