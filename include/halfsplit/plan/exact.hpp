// The least expected minutes for one fault and truthful readings, proven, by memoised recursion over
// (suspects, covers off, place).
//
// The class of plans it covers: every test of the problem at any time while it still splits the suspects; then the
// elements of the group that no test can tell apart are laid bare member by member until the faulty one is seen.
// Laying bare early, before the tests are used up, is outside the class. Groups of up to `exact_group` elements are
// ordered exactly; larger ones by probability per minute, and the answer is then not called proven.
#pragma once

#include "halfsplit/plan/problem.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace halfsplit::plan {

inline constexpr std::size_t exact_group = 8;

struct Limits {
    std::uint64_t states = 2'000'000;  // distinct (suspects, off, place) expanded before giving up on a proof
};

enum class Step { Test, LayBare, Done };

struct Choice {
    Step step = Step::Done;
    std::size_t index = 0;         // test, or element
    double minutes_now = 0;        // of this step
    double expected_minutes = 0;   // this step and all after it
    double worst_minutes = 0;      // the same plan's worst case (not the least worst case)
};

struct Solution {
    Choice best;
    std::vector<Choice> ranked;    // every root choice that was valued exactly, best first; holds `best` first
    double lower_bound = 0;        // at most the least expected minutes; equals best.expected_minutes when proven
    bool proven = false;
    std::uint64_t states = 0;      // distinct states expanded
};

// Deterministic: the same problem gives the same answer; ties go to the lowest test index.
// When `limits.states` runs out, the answer is the best plan known (never worse than information per minute with the
// remainder by the same rule), with proven = false and lower_bound below it.
// `alternatives`: how many root choices besides the best must be valued exactly (for "why it beats the next two").
Solution solve(const Problem& problem, const Limits& limits = {}, std::size_t alternatives = 0);

}  // namespace halfsplit::plan
