// A bank of five hundred problems in the manner of a harness, always the same ones: for what the planner
// answers and spends on them (tests/data/plan_bank.txt), and for the benchmark of the rules of thumb.
#pragma once

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/problem.hpp"

#include <cstddef>
#include <string>

namespace halfsplit::plan {

inline constexpr std::size_t bank_size = 500;

struct Banked {
    // "14 points, 3 places, ..." as it stands in the recorded file, without blanks inside a word.
    std::string description;
    Problem problem;
    // Two lines of more than twelve points are solved among plans where looks come last: any time takes too
    // long for a test.
    Looks looks = Looks::AnyTime;
};

// `number` from 0 up to (not including) bank_size; they differ in all that random_chain varies, in how skewed
// the probabilities are, and in whether covers are off already at the start.
Banked banked(std::size_t number);

}  // namespace halfsplit::plan
