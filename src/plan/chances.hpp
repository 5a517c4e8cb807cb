// Chances of the hypotheses of a problem.
#pragma once

#include "halfsplit/plan/problem.hpp"

#include <numeric>
#include <utility>
#include <vector>

namespace halfsplit::plan {

inline double sum_of(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

inline std::vector<double> normalised(std::vector<double> values) {
    const double sum = sum_of(values);
    for (double& value : values) value /= sum;
    return values;
}

inline std::vector<double> prior_of(const Problem& problem) {
    std::vector<double> prior;
    for (const Hypothesis& hypothesis : problem.hypotheses) prior.push_back(hypothesis.probability);
    return normalised(std::move(prior));
}

}  // namespace halfsplit::plan
