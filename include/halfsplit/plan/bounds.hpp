// Bounds that err on a known side.
#pragma once

#include "halfsplit/plan/problem.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::plan {

// Huffman's expected code length (Huffman 1952) of the weights with `arity` outcomes per test, in tests;
// weights need not sum to 1 (the result is for the weights as given). Never above the expected number of
// tests of any plan that tells all the weights apart by tests. Throws std::invalid_argument for an arity
// below 2 or a weight that is negative or not finite. O(n log n).
double huffman(std::vector<double> weights, std::size_t arity);

// At most the least expected minutes of any plan of the class of exact.hpp: laying bare alone, each element
// reached from the start as if it were the only one, plus what telling the suspects apart takes at the sites
// by code length (docs/reference/planning.md). Errs low. Throws as require_sound.
double lower_bound(const Problem& problem);

}  // namespace halfsplit::plan
