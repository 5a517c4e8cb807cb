// What the planner answers on the bank, and what it spends, as recorded in tests/data/plan_bank.txt. Costs
// must not change, ever; expansions may, on purpose. With HALFSPLIT_APPROVE=1 in the environment the
// expansions are recorded anew, provided no cost differs.
#include "plan/bank.hpp"

#include <fmt/format.h>

#include "plan/brute_force.hpp"
#include "support/catch.hpp"
#include "support/files_of_tests.hpp"

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace halfsplit::plan {

namespace {

const std::string bank_file = "tests/data/plan_bank.txt";
const std::string heading =
    "# The bank of tests/plan/bank.hpp: number, what it is, expansions, expected minutes, worst minutes.\n"
    "# Costs must not change. Expansions are recorded anew with HALFSPLIT_APPROVE=1; read the difference.\n";

constexpr double same_minutes = 1e-6;

struct Line {
    std::size_t number = 0;
    std::string description;
    std::uint64_t expansions = 0;
    double expected = 0, worst = 0;
};

std::string written(const Line& line) {
    return fmt::format("{} {} {} {:.6f} {:.6f}\n", line.number, line.description, line.expansions,
                       line.expected, line.worst);
}

Line read(const std::string& text) {
    std::istringstream in(text);
    Line line;
    in >> line.number;
    for (int word = 0; word < 7; ++word) {
        std::string next;
        in >> next;
        line.description += (word == 0 ? "" : " ") + next;
    }
    in >> line.expansions >> line.expected >> line.worst;
    if (!in) FAIL(bank_file << ": not a line of the bank: " << text);
    return line;
}

// None where there is no file: then all of it is recorded.
std::vector<Line> recorded() {
    std::ifstream in(test::path_of(bank_file));
    std::vector<Line> lines;
    for (std::string text; std::getline(in, text);)
        if (!text.empty() && text.front() != '#') lines.push_back(read(text));
    return lines;
}

std::vector<Line> found() {
    std::vector<Line> lines;
    for (std::size_t number = 0; number < bank_size; ++number) {
        const Banked one = banked(number);
        const Solution solution = solve(one.problem, {.looks = one.looks});
        if (!solution.proven || solution.looks != one.looks)
            FAIL_CHECK("instance " << number << " (" << one.description << ") is not proven any more");
        lines.push_back({number, one.description, solution.states, solution.best.expected_minutes,
                         solution.best.worst_minutes});
    }
    return lines;
}

void record(const std::vector<Line>& lines) {
    std::ofstream file(test::path_of(bank_file));
    file << heading;
    for (const Line& line : lines) file << written(line);
}

bool same_cost(const Line& one, const Line& other) {
    return std::abs(one.expected - other.expected) <= same_minutes &&
           std::abs(one.worst - other.worst) <= same_minutes;
}

// What is wrong in one way, told with no more than a few examples.
struct Complaints {
    std::size_t count = 0;
    std::string first;

    void add(const Line& was, const Line& is) {
        if (count++ < 5) first += "recorded: " + written(was) + "now:      " + written(is);
    }
    void tell(const std::string& what) const {
        if (count > 0) FAIL_CHECK(count << " of " << bank_size << ": " << what << '\n' << first);
    }
};

}  // namespace

TEST_CASE("The bank costs what is recorded and takes as many expansions") {
    const bool approve = std::getenv("HALFSPLIT_APPROVE") != nullptr;
    const std::vector<Line> was = recorded(), is = found();
    if (approve && was.empty()) return record(is);
    REQUIRE(was.size() == bank_size);
    Complaints others, costs, counts;
    for (std::size_t i = 0; i < bank_size; ++i) {
        if (was[i].number != i || was[i].description != is[i].description)
            others.add(was[i], is[i]);
        else if (!same_cost(was[i], is[i]))
            costs.add(was[i], is[i]);
        else if (was[i].expansions != is[i].expansions)
            counts.add(was[i], is[i]);
    }
    others.tell("the bank holds another problem than was recorded; put it back as it was");
    costs.tell(
        "A CHANGED COST IS A WRONG ANSWER, now or when it was recorded. It is never approved: find out "
        "which of the two, and why");
    if (approve && others.count + costs.count == 0) return record(is);
    counts.tell(
        "other expansions than recorded. Where that is wanted, record them with HALFSPLIT_APPROVE=1 and "
        "read the difference");
}

TEST_CASE("The smallest of the bank cost what going through every plan gives") {
    std::size_t checked = 0;
    for (const Line& line : recorded()) {
        const Banked one = banked(line.number);
        if (one.problem.hypotheses.size() > 8) continue;
        INFO(line.number << ": " << line.description);
        CHECK(line.expected == Approx(brute_force(one.problem, one.looks).expected).margin(same_minutes));
        ++checked;
    }
    CHECK(checked >= 20);
}

}  // namespace halfsplit::plan
