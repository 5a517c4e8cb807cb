// Rules of thumb over the same problem: what people do without a plan. Used as comparison, and as the
// fallback of the exact method when it runs out of states.
#pragma once

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/problem.hpp"

#include <string>
#include <vector>

namespace halfsplit::plan {

enum class Rule {
    HalfByCount,           // the cheapest of the tests that split the number of suspects most evenly
    HalfByProbability,     // the same by probability
    InformationPerMinute,  // most expected bits per minute
    Walk,                  // the first test, in order of the problem, that splits at all
    // Greedy with one rollout: the choice that takes the least minutes when information per minute is
    // followed after it. Never dearer than that rule. Unlike the others it also lays parts bare before all
    // tests are made, where that is cheaper.
    Rollout,
};

// The choice the rule makes at the root, with the expected and worst minutes of following it to the end.
// Throws as require_sound. A rollout follows information per minute to its end once for each choice at each
// state of its plan; the others look at each test once a state.
Choice follow(const Problem& problem, Rule rule);

// What a hunt takes, readings taken as truthful.
struct ByRule {
    std::string rule;  // "plan", "walk", "half-by-count", "half-by-probability", "information-per-minute"
    double expected_minutes = 0, worst_minutes = 0;
};
// The plan, and beside it what people do without one: each rule but the rollout, dearest first.
std::vector<ByRule> beside_rules(const Problem& problem, const Choice& plan);

}  // namespace halfsplit::plan
