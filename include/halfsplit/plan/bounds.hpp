// Bounds that err on a known side.
#pragma once

#include "halfsplit/plan/problem.hpp"

#include <vector>

namespace halfsplit::plan {

// Huffman's expected code length (Huffman 1952) of the weights with `arity` outcomes per test, in tests; weights need
// not sum to 1 (the result is for the weights as given). Never above the expected number of tests of any plan.
double huffman(std::vector<double> weights, std::size_t arity);

// At most the least expected minutes of any plan: laying bare alone, each element reached from the start as if it
// were the only one, plus Huffman's length times the cheapest reading. Errs low.
double lower_bound(const Problem& problem);

}  // namespace halfsplit::plan
