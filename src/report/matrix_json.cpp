#include "halfsplit/report/matrix_report.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace halfsplit::report {

using nlohmann::json;

namespace {

// Abstract minutes may be small; the planner takes less than a billionth for a tie.
double minutes_of(double minutes) {
    return std::round(minutes * 1e9) / 1e9;
}

json first_json(const matrix::Matrix& matrix, const plan::Choice& first) {
    switch (first.step) {
        case plan::Step::Test:
            return matrix.tests[first.index];
        case plan::Step::LayBare:
            return {{"bare", first.index}};
        case plan::Step::Done:
            break;
    }
    return nullptr;
}

}  // namespace

json matrix_json(const matrix::Matrix& matrix, const matrix::Survey& survey) {
    const plan::Solution& solution = survey.policy.solution;
    return {{"expected_minutes", minutes_of(solution.best.expected_minutes)},
            {"lower_bound", minutes_of(solution.lower_bound)},
            {"worst_minutes", minutes_of(solution.best.worst_minutes)},
            {"first", first_json(matrix, solution.best)},
            {"proven", solution.proven && solution.looks == plan::Looks::AnyTime},
            {"nodes", solution.states},
            {"ambiguity_groups", survey.groups}};
}

}  // namespace halfsplit::report
