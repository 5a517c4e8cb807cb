#include "benchmarks/plan_large.hpp"

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/rules.hpp"

#include <fmt/format.h>

#include "benchmarks/heap_peak.hpp"
#include "benchmarks/processor_time.hpp"
#include "plan/random_problem.hpp"

#include <algorithm>
#include <array>
#include <cstdio>

namespace halfsplit::plan {

namespace {

struct Large {
    std::size_t points = 0, places = 0, covers = 0;
    std::uint64_t states = 0;  // of each search there is
    unsigned chains = 0;
};
constexpr std::array<Large, 9> larges{{{40, 6, 12, 10'000, 24},
                                       {60, 6, 16, 10'000, 24},
                                       {200, 10, 32, 10'000, 8},
                                       {200, 10, 32, 100'000, 8},
                                       {1000, 20, 64, 10'000, 8},
                                       {1000, 20, 64, 100'000, 8},
                                       {1000, 20, 64, 200'000, 8},
                                       {10000, 20, 64, 10'000, 2},
                                       {10000, 20, 64, 100'000, 2}}};

struct Row {
    double expected = 0, by_rule = 0, bound = 0, gap = 0, most_gap = 0;  // means, but for the last
    double milliseconds = 0, most_milliseconds = 0, megabytes = 0;       // the last: the most
};

void measure(Row& row, const Large& large, unsigned seed) {
    ChainShape shape;
    shape.points = large.points;
    shape.places = large.places;
    shape.covers = large.covers;
    const test::HeapPeak peak;
    const Problem problem = random_chain(shape, seed);
    Solution found;
    const double took = test::milliseconds([&] {
        found = solve(problem, {large.states, Looks::AnyTime, large.states});
    });
    row.megabytes = std::max(row.megabytes, static_cast<double>(peak.bytes()) / 1e6);
    const double gap = found.best.expected_minutes / found.lower_bound - 1;
    row.expected += found.best.expected_minutes / large.chains;
    row.by_rule += follow(problem, Rule::InformationPerMinute).expected_minutes / large.chains;
    row.bound += found.lower_bound / large.chains;
    row.gap += gap / large.chains;
    row.most_gap = std::max(row.most_gap, gap);
    row.milliseconds += took / large.chains;
    row.most_milliseconds = std::max(row.most_milliseconds, took);
}

}  // namespace

std::string table_of_large() {
    std::string table =
        "| beyond proof | states | chains | expected, minutes | information per minute | bound | gap, mean "
        "(most) "
        "| ms, mean (most) | MB, most |\n|---|---|---|---|---|---|---|---|---|\n";
    for (const Large& large : larges) {
        fmt::print(stderr, "large: {} points, {} states\n", large.points, large.states);
        Row row;
        for (unsigned seed = 1; seed <= large.chains; ++seed) measure(row, large, seed);
        table += fmt::format(
            "| {} points, {} places, {} covers | {} | {} | {:.1f} | {:.1f} | {:.1f} | {:.1f} % "
            "({:.1f} %) | {:.0f} ({:.0f}) | {:.0f} |\n",
            large.points, large.places, large.covers, large.states, large.chains, row.expected, row.by_rule,
            row.bound, 100 * row.gap, 100 * row.most_gap, row.milliseconds, row.most_milliseconds,
            row.megabytes);
    }
    return table;
}

}  // namespace halfsplit::plan
