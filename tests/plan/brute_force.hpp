// The least expected minutes by going through every plan of the class, with nothing clever: lists of
// hypotheses, every test, every order of laying bare. For problems of a handful of hypotheses.
#pragma once

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/problem.hpp"

#include <cstddef>
#include <limits>

namespace halfsplit::plan {

struct BruteForce {
    double expected = 0;  // minutes, for probabilities that sum to 1
    // Worst case of a best plan: the least and the most over all plans whose expected minutes tie within a
    // billionth.
    double least_worst = 0, most_worst = 0;
};

BruteForce brute_force(const Problem& problem, Looks looks = Looks::AnyTime);

// The same when the plan must begin with this test, which must split the hypotheses.
double brute_force_after(const Problem& problem, std::size_t test, Looks looks = Looks::AnyTime);

}  // namespace halfsplit::plan
