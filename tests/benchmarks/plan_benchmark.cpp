// Times and sizes of the planner, and how rules of thumb compare. Build with -DHALFSPLIT_BENCHMARKS=ON, run
// `halfsplit_plan_benchmark` for everything or with a tag: [solve], [one_step], [rules].
#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/one_step.hpp"
#include "halfsplit/plan/rules.hpp"

#include <fmt/format.h>

#include "plan/random_problem.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

namespace halfsplit::plan {

namespace {

Shape chain(std::size_t points, bool two_lines) {
    Shape shape;
    shape.points = points;
    shape.places = 8;
    shape.covers = two_lines ? 14 : 12;
    shape.two_lines = shape.joints = shape.shorts = shape.whole_bus = two_lines;
    shape.uneven = false;
    shape.slip = 0.03;
    return shape;
}

void report_sizes(const Shape& shape) {
    std::uint64_t most = 0, total = 0;
    std::size_t hypotheses = 0;
    double gap = 0;
    constexpr unsigned instances = 12;
    for (unsigned seed = 1; seed <= instances; ++seed) {
        const Problem problem = random_chain(shape, seed);
        const Solution solution = solve(problem);
        most = std::max(most, solution.states);
        total += solution.states;
        hypotheses = std::max(hypotheses, problem.hypotheses.size());
        gap = std::max(gap, solution.best.expected_minutes / solution.lower_bound - 1);
    }
    fmt::print(
        "{} points, {}: {} instances, up to {} hypotheses; expansions mean {}, most {}; widest gap {:.2f} "
        "%\n",
        shape.points, shape.two_lines ? "two lines" : "one line", instances, hypotheses, total / instances,
        most, 100 * gap);
}

struct Ratio {
    double sum = 0, most = 0;
    void add(double ratio) {
        sum += ratio;
        most = std::max(most, ratio);
    }
};

}  // namespace

TEST_CASE("Solving chains of ten to forty points", "[solve]") {
    for (const bool two_lines : {false, true})
        for (const std::size_t points : {10U, 20U, 30U, 40U}) {
            const Shape shape = chain(points, two_lines);
            report_sizes(shape);
            const std::string name =
                fmt::format("solve, {} points, {}", points, two_lines ? "two lines" : "one line");
            BENCHMARK_ADVANCED(std::string(name))(Catch::Benchmark::Chronometer meter) {
                const Problem problem = random_chain(shape, 3);
                meter.measure([&] { return solve(problem).best.expected_minutes; });
            };
        }
}

TEST_CASE("Looking one step ahead on chains of ten to forty points", "[one_step]") {
    for (const std::size_t points : {10U, 20U, 30U, 40U}) {
        const std::string name = fmt::format("one step ahead, {} points, two lines", points);
        BENCHMARK_ADVANCED(std::string(name))(Catch::Benchmark::Chronometer meter) {
            const Problem problem = random_chain(chain(points, true), 3);
            meter.measure([&] { return one_step(problem).options.size(); });
        };
    }
}

TEST_CASE("Rules of thumb against the optimum", "[rules]") {
    const std::array<std::pair<Rule, const char*>, 4> rules{
        {{Rule::Walk, "walk"},
         {Rule::HalfByCount, "half by count"},
         {Rule::HalfByProbability, "half by probability"},
         {Rule::InformationPerMinute, "information per minute"}}};
    const std::array<std::array<std::size_t, 3>, 4> sizes{{{7, 3, 4}, {13, 4, 6}, {19, 5, 8}, {29, 5, 10}}};
    for (const auto& [points, places, covers] : sizes) {
        Shape shape;
        shape.points = points;
        shape.places = places;
        shape.covers = covers;
        constexpr unsigned instances = 40;
        std::array<Ratio, rules.size()> ratios;
        for (unsigned seed = 1; seed <= instances; ++seed) {
            const Problem problem = random_chain(shape, seed);
            const double least = solve(problem).best.expected_minutes;
            for (std::size_t r = 0; r < rules.size(); ++r) {
                const double ratio = follow(problem, rules[r].first).expected_minutes / least;
                CHECK(ratio >= 1 - 1e-9);
                ratios[r].add(ratio);
            }
        }
        fmt::print("{} points, {} places, {} covers; minutes by rule / optimum, mean (most):", points, places,
                   covers);
        for (std::size_t r = 0; r < rules.size(); ++r)
            fmt::print(" {} {:.3f} ({:.2f});", rules[r].second, ratios[r].sum / instances, ratios[r].most);
        fmt::print("\n");
        for (const Ratio& other : ratios) CHECK(ratios.back().sum <= other.sum);
    }
}

}  // namespace halfsplit::plan
