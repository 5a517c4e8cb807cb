// The least expected minutes for one fault and truthful readings, proven, by memoised recursion over
// (suspects, covers off, place).
//
// Two classes of plans. Looks::AnyTime: every test that still splits the suspects may be made, and any
// suspected element laid bare, at any time. Looks::Last: once at most `exact_group` elements are suspected,
// or no test splits the suspects, the elements are laid bare one after another until the faulty one is seen,
// and nobody goes back to tests. In both, elements that no test tells apart are put in the best order where
// they are at most `exact_group`; more of them by probability per minute with shared covers counted, and the
// answer is then proven only when a bound shows the order optimal. Where `Problem::bare` is empty a plan ends
// as soon as one element is left or no test splits the suspects, and both classes are one.
//
// docs/reference/planning.md has the recursion, the bounds it is cut with, and measured sizes and times.
#pragma once

#include "halfsplit/plan/problem.hpp"

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace halfsplit::plan {

inline constexpr std::size_t exact_group = 8;

// Which plans; the first class holds the second.
enum class Looks { AnyTime, Last };
std::string_view word(Looks looks);  // "looks-any-time", "looks-last"

struct Limits {
    // Expansions of states (suspects, covers off, place) before giving up on a proof; a state taken up again
    // because more of it has to be known counts again. About 3 microseconds each on 40 probe points. Where
    // they run out, as many again may go into the plan that is followed then, and into the lower bound.
    std::uint64_t states = 2'000'000;
    // The class that is tried. For AnyTime, Last is searched first, and so many more states may then go into
    // whether looks at any time do better.
    Looks looks = Looks::AnyTime;
    std::uint64_t states_any_time = 2'000'000;
};

enum class Step { Test, LayBare, Done };

struct Choice {
    Step step = Step::Done;
    std::size_t index = 0;        // test, or element
    double minutes_now = 0;       // of this step
    double expected_minutes = 0;  // this step and all after it
    double worst_minutes = 0;     // the same plan's worst case (not the least worst case)
};

struct Solution {
    Choice best;
    std::vector<Choice>
        ranked;  // every root choice that was valued exactly, best first; when proven, holds `best` first
    // At most the least expected minutes of the class that was tried; equals best.expected_minutes when that
    // is proven.
    double lower_bound = 0;
    bool proven = false;  // that no plan of class `looks` is better
    Looks looks = Looks::AnyTime;
    std::uint64_t states = 0;  // expansions spent
};

// Deterministic: the same problem gives the same answer; root choices within a billionth of a minute of each
// other go to the lowest test index, tests before laying bare. When `limits.states` runs out, the answer is
// the best plan known (never worse than information per minute, stopped where laying bare what is left takes
// no longer), with proven = false and lower_bound at or below
// the optimum. `alternatives`: how many root choices besides the best must be valued exactly (for "why it
// beats the next two"). Throws as require_sound. Exponential in the worst case; the limit bounds it.
// Recursion is as deep as the longest plan.
Solution solve(const Problem& problem, const Limits& limits = {}, std::size_t alternatives = 0);

}  // namespace halfsplit::plan
