#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/report/matrix_report.hpp"

#include <fmt/format.h>

#include "report/matrix_words.hpp"
#include "report/page.hpp"

#include <algorithm>
#include <numeric>

namespace halfsplit::report {

using matrix::Matrix;
using Group = std::vector<std::size_t>;

namespace {

constexpr std::size_t matrix_indent = 2;
constexpr std::size_t matrix_label = 10;
constexpr std::size_t matrix_share = 16;
constexpr std::size_t matrix_groups_told = 10;

double total_weight(const plan::Problem& problem) {
    double sum = 0;
    for (const plan::Hypothesis& hypothesis : problem.hypotheses) sum += hypothesis.probability;
    return sum;
}

double chance(const plan::Problem& problem, const Group& group) {
    double sum = 0;
    for (const std::size_t h : group) sum += problem.hypotheses[h].probability;
    return sum / total_weight(problem);
}

std::string ending(const plan::Problem& problem) {
    return problem.bare.empty() ? "the hunt ends with the fault isolated"
                                : "the hunt ends with the faulty part laid bare";
}

void add_figures(const Matrix& matrix, const matrix::Survey& survey, Page& page) {
    const plan::Problem& problem = matrix.problem;
    page.labelled(
        "surveyed",
        fmt::format("{}, {}, {}, {}; {}",
                    problem.hypotheses.size() == 1 ? "1 hypothesis"
                                                   : fmt::format("{} hypotheses", problem.hypotheses.size()),
                    counted(problem.tests.size(), "test"), counted(problem.workshop.places(), "place"),
                    counted(problem.workshop.covers(), "cover"), ending(problem)),
        matrix_indent, matrix_label);
    page.labelled("share of", "hypotheses  by chance", matrix_indent, matrix_share);
    for (std::size_t size = 1; size <= 3; ++size) {
        double count = 0, by_chance = 0;
        for (const Group& group : survey.groups) {
            if (group.size() > size) continue;
            count += static_cast<double>(group.size());
            by_chance += chance(problem, group);
        }
        // Sums of chances may miss 1 by rounding.
        const bool every = count == static_cast<double>(problem.hypotheses.size());
        page.labelled(
            fmt::format("isolated to {}", size),
            fmt::format("{:<12}{}", format_chance(count / static_cast<double>(problem.hypotheses.size())),
                        format_chance(every ? 1 : std::min(by_chance, 1.0))),
            matrix_indent, matrix_share);
    }
}

// Where it is not the expected minutes alone that count.
std::string proof_of_aim(const matrix::Survey& survey) {
    const plan::Solution& solution = survey.policy.solution;
    const std::string cap = plain_minutes(survey.objective.worst_at_most);
    const std::string bound = fmt::format("none below {}", plain_minutes(survey.policy.worst_lower_bound));
    if (solution.best.worst_minutes > survey.objective.worst_at_most + 1e-9)
        return solution.proven ? fmt::format("no plan keeps to {}; worst case proven least", cap)
                               : fmt::format("no plan known keeps to {}; {}", cap, bound);
    if (survey.objective.least_worst)
        return solution.proven ? "worst case proven least" : "worst case not proven least; " + bound;
    return fmt::format("{} of those within {}", solution.proven ? "proven least" : "not proven least", cap);
}

std::string proof_of(const matrix::Survey& survey) {
    if (!survey.objective.is_expected_alone()) return proof_of_aim(survey);
    const plan::Solution& solution = survey.policy.solution;
    if (solution.proven && solution.looks == plan::Looks::AnyTime) return "proven least";
    return fmt::format("{}; no plan below {}",
                       solution.proven ? "least where looks come last" : "not proven least",
                       plain_minutes(solution.lower_bound));
}

void add_plan(const Matrix& matrix, const matrix::Survey& survey, Page& page) {
    const plan::Solution& solution = survey.policy.solution;
    const plan::Choice& first = solution.best;
    page.labelled("quote",
                  fmt::format("expected {}, worst {} ({})", plain_minutes(first.expected_minutes),
                              plain_minutes(first.worst_minutes), proof_of(survey)),
                  matrix_indent, matrix_label);
    std::string words = "nothing: no test tells more, and nothing is laid bare";
    if (first.step == plan::Step::Test) words = fmt::format("test {}", matrix.tests[first.index]);
    if (first.step == plan::Step::LayBare) words = fmt::format("lay bare {}", first.index);
    if (first.step != plan::Step::Done) words += fmt::format(", {}", plain_minutes(first.minutes_now));
    page.labelled("first", words, matrix_indent, matrix_label);
    page.labelled("searched", fmt::format("{} states", solution.states), matrix_indent, matrix_label);
}

void add_groups(const Matrix& matrix, const matrix::Survey& survey, Page& page) {
    std::vector<Group> groups;
    for (const Group& group : survey.groups)
        if (group.size() > 1) groups.push_back(group);
    if (groups.empty()) {
        page.labelled("groups", "every hypothesis is told from every other", matrix_indent, matrix_label);
        return;
    }
    std::stable_sort(groups.begin(), groups.end(), [&](const Group& a, const Group& b) {
        return chance(matrix.problem, a) > chance(matrix.problem, b);
    });
    page.heading("NO TEST TELLS THESE APART");
    for (std::size_t g = 0; g < std::min(groups.size(), matrix_groups_told); ++g)
        page.labelled(format_chance(std::min(1.0, chance(matrix.problem, groups[g]))), number_list(groups[g]),
                      matrix_indent, matrix_label);
    if (groups.size() > matrix_groups_told)
        page.paragraph(fmt::format("and {} more; --json has them all",
                                   counted(groups.size() - matrix_groups_told, "group")),
                       matrix_indent);
}

}  // namespace

std::string plain_minutes(double minutes) {
    return fmt::format("{:.6g} min", minutes);
}

std::string number_list(const std::vector<std::size_t>& numbers) {
    constexpr std::size_t most_numbers = 20;
    std::vector<std::string> words;
    for (const std::size_t number : numbers) {
        if (words.size() == most_numbers) break;
        words.push_back(std::to_string(number));
    }
    const std::string list = join(words, ", ");
    return numbers.size() > most_numbers ? fmt::format("{} and {} more", list, numbers.size() - most_numbers)
                                         : list;
}

std::string matrix_text(const std::string& file, const Matrix& matrix, const matrix::Survey& survey,
                        std::size_t columns) {
    Page page(columns);
    page.heading(fmt::format("MATRIX {}", printable(file)));
    add_figures(matrix, survey, page);
    add_plan(matrix, survey, page);
    add_groups(matrix, survey, page);
    return page.text();
}

}  // namespace halfsplit::report
