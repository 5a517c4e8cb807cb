#include "plan/huffman.hpp"

#include <algorithm>

namespace halfsplit::plan {

// Two queues (van Leeuwen 1976): the weights, rising, and the merged nodes, which come out rising by
// themselves.
double huffman_of_rising(std::span<const double> weights, std::size_t arity, std::vector<double>& merged) {
    if (weights.size() < 2 || arity < 2) return 0;
    merged.clear();
    std::size_t leaf = 0, node = 0;
    double length = 0;
    const auto take_least = [&] {
        if (leaf < weights.size() && (node >= merged.size() || weights[leaf] <= merged[node]))
            return weights[leaf++];
        return merged[node++];
    };
    // Merging takes arity - 1 nodes away; the first merge takes what is over, so that the last one is full.
    std::size_t left = weights.size();
    std::size_t take = (left - 2) % (arity - 1) + 2;
    while (left > 1) {
        double sum = 0;
        for (std::size_t i = 0; i < take; ++i) sum += take_least();
        merged.push_back(sum);
        length += sum;
        left -= take - 1;
        take = arity;
    }
    return length;
}

double least_steps(std::span<const double> weights, std::size_t arity, double step, bool looks,
                   std::vector<double>& merged) {
    double steps = huffman_of_rising(weights, arity, merged);
    if (looks)
        for (std::size_t i = 0; i < weights.size() / 2; ++i) {
            const double saved = weights[weights.size() - 1 - i] - weights[i];
            if (saved <= 0) break;
            steps -= saved;
        }
    return std::max(0.0, step * steps);
}

}  // namespace halfsplit::plan
