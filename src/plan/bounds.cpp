#include "halfsplit/plan/bounds.hpp"

#include "plan/desk.hpp"
#include "plan/huffman.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace halfsplit::plan {

double huffman(std::vector<double> weights, std::size_t arity) {
    if (arity < 2) throw std::invalid_argument("a code needs at least two branches a node");
    for (const double weight : weights)
        if (!std::isfinite(weight) || weight < 0)
            throw std::invalid_argument("a weight is negative or not finite");
    std::sort(weights.begin(), weights.end());
    std::vector<double> merged;
    return huffman_of_rising(weights, arity, merged);
}

double lower_bound(const Problem& problem) {
    require_sound(problem);
    const Outline outline(problem);
    Ground ground(outline, outline.prior());
    Desk desk(ground, {.states = 0});
    return desk.lower_bound(ground.sets.all(), problem.start);
}

}  // namespace halfsplit::plan
