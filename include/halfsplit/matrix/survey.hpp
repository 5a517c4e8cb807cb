// What is to be told of a dependency matrix: the plan, and what no test tells apart.
#pragma once

#include "halfsplit/matrix/matrix.hpp"
#include "halfsplit/plan/policy.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::matrix {

struct Survey {
    plan::Objective objective;
    plan::Policy policy;  // best at it
    // Every hypothesis is in one group, rising; two are together exactly when every test shows the same for
    // both (ambiguity groups of IEEE 1522, from memory). In order of the first in each.
    std::vector<std::vector<std::size_t>> groups;
};

// Expansions that planning may take: 2 million, or fewer for a large matrix, so that what is kept of them
// (some 2 bytes a cell of hypotheses x tests each) fits into memory.
std::uint64_t most_states(const plan::Problem& problem);

// Deterministic. Time and memory: exponential in the worst case, held down by most_states.
Survey survey(const Matrix& matrix, const plan::Objective& objective = {});

}  // namespace halfsplit::matrix
