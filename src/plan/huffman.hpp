// Code lengths as bounds on the number of steps.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace halfsplit::plan {

// Huffman's expected code length with `arity` branches a node, of weights that rise. Linear; `merged` is
// scratch.
double huffman_of_rising(std::span<const double> weights, std::size_t arity, std::vector<double>& merged);

// At most what telling the weights apart costs beside the look that ends the hunt, when every test costs at
// least `step`, every needless look at least `2 * step`, and a test shows at most `arity` outcomes (see
// docs/reference/planning.md). Weights rise. With `looks` false there are no looks: then it is `step` times
// Huffman's length.
double least_steps(std::span<const double> weights, std::size_t arity, double step, bool looks,
                   std::vector<double>& merged);

}  // namespace halfsplit::plan
