#include "benchmarks/plan_rules.hpp"

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/rules.hpp"

#include <fmt/format.h>

#include "advice/problem.hpp"
#include "benchmarks/demo_problems.hpp"
#include "plan/bank.hpp"
#include "plan/random_problem.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <utility>
#include <vector>

namespace halfsplit::plan {

namespace {

constexpr std::array<Rule, 5> rules{Rule::Walk, Rule::HalfByCount, Rule::HalfByProbability,
                                    Rule::InformationPerMinute, Rule::Rollout};
constexpr const char* heading =
    "| expected minutes / least, mean (most) | problems | walk | half by count | half by probability | "
    "information per minute | one rollout of that | ours |\n|---|---|---|---|---|---|---|---|\n";

// Enough to prove nearly all chains; of what advice poses on the demo harnesses more states prove little
// more.
constexpr std::uint64_t states_of_chains = 2'000'000, states_of_demos = 200'000;

struct Ratio {
    double sum = 0, most = 0;
    void add(double ratio) {
        sum += ratio;
        most = std::max(most, ratio);
    }
};

class Row {
  public:
    Row(std::string name, std::uint64_t states) : name_(std::move(name)), states_(states) {}

    void add(const Problem& problem) {
        const Solution least = solve(problem, {states_, Looks::AnyTime, states_});
        if (least.best.step == Step::Done) return;  // nothing to find out
        const bool proven = least.proven && least.looks == Looks::AnyTime;
        const double minutes = proven ? least.best.expected_minutes : least.lower_bound;
        ++count_;
        unproven_ += proven ? 0 : 1;
        for (std::size_t r = 0; r < rules.size(); ++r)
            ratios_[r].add(follow(problem, rules[r]).expected_minutes / minutes);
        ratios_.back().add(solve(problem, advice::planning_limits).best.expected_minutes / minutes);
    }

    std::string text() const {
        std::string line = fmt::format("| {} | {}{} |", name_, count_,
                                       unproven_ > 0 ? fmt::format(", {} by the bound", unproven_) : "");
        for (const Ratio& ratio : ratios_)
            line += fmt::format(" {:.3f} ({:.2f}) |", ratio.sum / static_cast<double>(count_), ratio.most);
        return line + "\n";
    }

  private:
    std::string name_;
    std::uint64_t states_;
    std::size_t count_ = 0, unproven_ = 0;
    std::array<Ratio, rules.size() + 1> ratios_;
};

void told(const std::string& name) {
    fmt::print(stderr, "rules: {}\n", name);
}

std::string rows_of_bank() {
    Row one_line("bank, one line", states_of_chains), two_lines("bank, two lines", states_of_chains),
        isolating("bank, isolating alone", states_of_chains);
    told("bank");
    for (std::size_t number = 0; number < bank_size; ++number) {
        const Banked one = banked(number);
        const bool two = one.description.find("two-lines") != std::string::npos;
        (one.problem.bare.empty() ? isolating : two ? two_lines : one_line).add(one.problem);
    }
    return one_line.text() + two_lines.text() + isolating.text();
}

std::string row_of_chains(std::size_t points, std::size_t places, std::size_t covers) {
    Row row(fmt::format("chains of {} points, {} places, {} covers", points, places, covers),
            states_of_chains);
    told(fmt::format("{} points", points));
    ChainShape shape;
    shape.points = points;
    shape.places = places;
    shape.covers = covers;
    for (unsigned seed = 1; seed <= 40; ++seed) row.add(random_chain(shape, seed));
    return row.text();
}

// A row for each bus.
std::string rows_of_demos() {
    std::vector<std::pair<std::string, Row>> rows;
    for (const test::DemoProblem& demo : test::demo_problems()) {
        told(demo.name);
        const std::string bus = demo.name.substr(0, demo.name.find(':'));
        if (rows.empty() || rows.back().first != bus)
            rows.push_back({bus, Row(bus + " bus", states_of_demos)});
        rows.back().second.add(demo.problem);
    }
    std::string text;
    for (const auto& [bus, row] : rows) text += row.text();
    return text;
}

}  // namespace

std::string table_of_rules() {
    std::string table = heading + rows_of_bank();
    table +=
        row_of_chains(7, 3, 4) + row_of_chains(13, 4, 6) + row_of_chains(19, 5, 8) + row_of_chains(29, 5, 10);
    return table + rows_of_demos();
}

}  // namespace halfsplit::plan
