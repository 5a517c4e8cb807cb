#include "halfsplit/matrix/survey.hpp"

#include <algorithm>
#include <map>

namespace halfsplit::matrix {

namespace {

std::vector<std::vector<std::size_t>> ambiguity_groups(const plan::Problem& problem) {
    std::vector<std::vector<std::size_t>> groups;
    std::map<std::vector<int>, std::size_t> group_of;  // by what every test shows
    for (std::size_t h = 0; h < problem.hypotheses.size(); ++h) {
        std::vector<int> shown;
        shown.reserve(problem.tests.size());
        for (const plan::Test& test : problem.tests) shown.push_back(test.outcome[h]);
        const auto [known, fresh] = group_of.emplace(std::move(shown), groups.size());
        if (fresh) groups.emplace_back();
        groups[known->second].push_back(h);
    }
    return groups;
}

}  // namespace

std::uint64_t most_states(const plan::Problem& problem) {
    constexpr std::uint64_t most = 2'000'000, most_cells = 500'000'000;
    const std::uint64_t cells = problem.hypotheses.size() * std::max<std::size_t>(1, problem.tests.size());
    return std::min(most, most_cells / cells);
}

Survey survey(const Matrix& matrix, const plan::Objective& objective) {
    const std::uint64_t states = most_states(matrix.problem);
    return {objective, plan::policy(matrix.problem, {states, plan::Looks::AnyTime, states}, objective),
            ambiguity_groups(matrix.problem)};
}

}  // namespace halfsplit::matrix
