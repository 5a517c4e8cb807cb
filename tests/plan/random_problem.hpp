// Random problems in the manner of a harness: a chain of probe points that visits places again and again,
// nested covers, skewed weights, the clip at the near end.
#pragma once

#include "halfsplit/plan/problem.hpp"

#include <cstddef>

namespace halfsplit::plan {

struct ChainShape {
    std::size_t points = 6, places = 3, covers = 3;
    bool two_lines = false;  // each point on H or on L; opens of H, of L and of both
    bool joints = false;     // bad joints as well, a third outcome
    bool shorts = false;     // faults that only the whole-bus test sees
    bool whole_bus = false;  // one reading at the first place: open, joint or short
    bool uneven = true;      // every minute different, so that ties are no matter
    bool bare = true;        // false: isolating alone counts
    double slip = 0;         // of every test
};

Problem random_chain(const ChainShape& shape, unsigned seed);

// Of all hypotheses together, which need not be 1.
double total_probability(const Problem& problem);

// Nothing but numbers: any outcome, any access, any travel (not even the shortest way), elements shared.
Problem random_anything(std::size_t hypotheses, std::size_t tests, std::size_t outcomes, unsigned seed);

// The same without covers, and with ways of which many are far longer than over another place.
Problem with_detours(Problem problem, unsigned seed);

// The same with so many pairs of two faults, which show what either shows, and what each goes on to.
Problem with_pairs(Problem problem, std::size_t pairs, unsigned seed);

}  // namespace halfsplit::plan
