// A whole plan as a hunt follows it: planned anew after each outcome. Where one search proves its plan that
// changes nothing; where its states ran out, what comes after the first step is known by a rule of thumb
// alone, and each part of it is small enough to be searched again.
#pragma once

#include "halfsplit/plan/policy.hpp"

#include <cstdint>

namespace halfsplit::plan {

struct Replanning {
    Limits limits;  // of each search
    // What a hunt comes to with a smaller chance is left as it was planned.
    double least_chance = 0.01;
    // Expansions after which nothing is planned anew; the search that passes it is still finished. Those of
    // the first search do not count.
    std::uint64_t states = 1'000'000;
};

// The first step of policy(), and after each of its outcomes, likeliest first, the better of what it had
// planned and a new policy from there, down to what is proven. So it is never worse than policy() at the
// objective: in expected minutes; with an objective beside those no worse in the worst case, or within the
// cap, and no worse in expected minutes. The worst case itself is bettered only where the plan was above the
// cap. Minutes and chances are true of the plan given. `solution` has the bounds and `ranked` of the first
// search, all expansions, and of `best` what the whole plan comes to; proven where that search was, or where
// the plan reaches its bound and the expected minutes are the objective.
//
// Deterministic. Throws as policy().
Policy replanned(const Problem& problem, const Replanning& options = {}, const Objective& objective = {});

}  // namespace halfsplit::plan
