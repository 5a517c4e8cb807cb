#include "benchmarks/plan_sizes.hpp"

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/one_step.hpp"

#include <fmt/format.h>

#include "advice/problem.hpp"
#include "benchmarks/heap_peak.hpp"
#include "benchmarks/log_plot.hpp"
#include "benchmarks/processor_time.hpp"
#include "plan/random_problem.hpp"

#include <algorithm>
#include <array>
#include <cstdio>

namespace halfsplit::plan {

namespace {

using test::milliseconds;

constexpr unsigned instances = 24;
// Not all chains are proven within this; it keeps the benchmark to some minutes and to a gigabyte or so.
constexpr std::uint64_t states_one_line = 1'000'000, states_two_lines = 200'000;

struct Size {
    std::size_t points = 0, places = 0, covers = 0;
    double aim_milliseconds = 0;  // 0: none
};
constexpr std::array<Size, 7> sizes{
    {{10, 3, 5}, {16, 4, 7}, {24, 5, 10, 10}, {32, 5, 11}, {40, 6, 12, 100}, {50, 6, 14}, {60, 6, 16, 1000}}};

ChainShape shape_of(const Size& size, bool two_lines) {
    ChainShape shape;
    shape.points = size.points;
    shape.places = size.places;
    shape.covers = size.covers;
    shape.two_lines = shape.joints = shape.whole_bus = two_lines;
    shape.slip = 0.03;
    return shape;
}

void add(Spread& spread, double figure, double of = instances) {
    spread.mean += figure / of;
    spread.most = std::max(spread.most, figure);
}

std::string thousands(std::uint64_t count) {
    return count < 1000 ? std::to_string(count)
                        : fmt::format("{},{:03}", thousands(count / 1000), count % 1000);
}

bool is_proven(const Solution& solution) {
    return solution.proven && solution.looks == Looks::AnyTime;
}

void measure_advice(Measured& result, const Problem& problem, const Solution& least) {
    Solution advised;
    add(result.advised_milliseconds,
        milliseconds([&] { advised = solve(problem, advice::planning_limits); }));
    result.advised_proven += is_proven(advised) ? 1 : 0;
    add(result.advised_gap, advised.best.expected_minutes / advised.lower_bound - 1);
    // A mean over those that are proven, which are known once all are measured.
    if (is_proven(least))
        add(result.advised_excess, advised.best.expected_minutes / least.best.expected_minutes - 1, 1);
    add(result.one_step_milliseconds,
        milliseconds([&] { one_step(problem, {.limits = advice::planning_limits}); }));
}

void measure(Measured& result, const Problem& problem, std::uint64_t states) {
    result.hypotheses = std::max(result.hypotheses, problem.hypotheses.size());
    Solution solution;
    const Limits limits{states, Looks::AnyTime, states};
    const double took = milliseconds([&] { solution = solve(problem, limits); });
    add(result.milliseconds, took);
    add(result.expansions, static_cast<double>(solution.states));
    result.proven += is_proven(solution) ? 1 : 0;
    result.within_aim += is_proven(solution) && took <= result.aim_milliseconds ? 1 : 0;
    const test::HeapPeak peak;
    solve(problem, limits);
    add(result.megabytes, static_cast<double>(peak.bytes()) / 1e6);
    measure_advice(result, problem, solution);
}

std::string row_name(const Measured& one, bool two_lines) {
    return fmt::format("| {} points, {} places, {} covers, {} | {} |", one.points, one.places, one.covers,
                       two_lines ? "two lines" : "one line", one.hypotheses);
}

std::string milliseconds_text(const Spread& spread) {
    const auto text = [](double figure) {
        return figure < 10 ? fmt::format("{:.2f}", figure) : fmt::format("{:.0f}", figure);
    };
    return text(spread.mean) + " (" + text(spread.most) + ")";
}

std::string aim_text(const Measured& one) {
    if (one.aim_milliseconds == 0) return "";
    return fmt::format("{:.0f}: {} of {}", one.aim_milliseconds, one.within_aim, one.instances);
}

std::string percent_text(const Spread& spread) {
    return fmt::format("{:.1f} % ({:.0f} %)", 100 * spread.mean, 100 * spread.most);
}

std::string proof_row(const Measured& one, bool two_lines) {
    return row_name(one, two_lines) +
           fmt::format(" {} of {} | {:.0f} ({:.0f}) | {} | {} | {:.2f} ({:.1f}) |\n", one.proven,
                       one.instances, one.expansions.mean, one.expansions.most,
                       milliseconds_text(one.milliseconds), aim_text(one), one.megabytes.mean,
                       one.megabytes.most);
}

std::string advice_row(const Measured& one, bool two_lines) {
    return row_name(one, two_lines) +
           fmt::format(" {} of {} | {} | {} | {} | {} |\n", one.advised_proven, one.instances,
                       one.proven > 0 ? percent_text(one.advised_excess) : "not known",
                       percent_text(one.advised_gap), milliseconds_text(one.advised_milliseconds),
                       milliseconds_text(one.one_step_milliseconds));
}

template <typename Row>
std::string rows(const std::vector<Measured>& one_line, const std::vector<Measured>& two_lines, Row row) {
    std::string result;
    for (const Measured& one : one_line) result += row(one, false);
    for (const Measured& one : two_lines) result += row(one, true);
    return result;
}

test::Series series(std::string name, test::Marker marker, const std::vector<Measured>& measured,
                    Spread Measured::*what, double Spread::*figure) {
    test::Series result{std::move(name), marker, true, {}};
    for (const Measured& one : measured)
        result.dots.push_back({static_cast<double>(one.points), one.*what.*figure});
    return result;
}

}  // namespace

std::vector<Measured> measure_sizes(bool two_lines) {
    std::vector<Measured> result;
    for (const Size& size : sizes) {
        fmt::print(stderr, "sizes: {} points, {}\n", size.points, two_lines ? "two lines" : "one line");
        Measured one;
        one.points = size.points;
        one.places = size.places;
        one.covers = size.covers;
        one.aim_milliseconds = size.aim_milliseconds;
        one.instances = instances;
        for (unsigned seed = 1; seed <= instances; ++seed)
            measure(one, random_chain(shape_of(size, two_lines), seed),
                    two_lines ? states_two_lines : states_one_line);
        one.advised_excess.mean /= static_cast<double>(std::max<std::size_t>(one.proven, 1));
        result.push_back(one);
    }
    return result;
}

std::string table_of_proofs(const std::vector<Measured>& one_line, const std::vector<Measured>& two_lines) {
    return "| to the proof, mean (most) | hypotheses, most | proven | expansions | ms | aim, ms: within it | "
           "MB |\n"
           "|---|---|---|---|---|---|---|\n" +
           rows(one_line, two_lines, proof_row);
}

std::string table_of_advice(const std::vector<Measured>& one_line, const std::vector<Measured>& two_lines) {
    return "| within the limits of advice, mean (most) | hypotheses, most | proven | over the least, where "
           "known | "
           "over its own bound | `solve`, ms | one step ahead, ms |\n|---|---|---|---|---|---|---|\n" +
           rows(one_line, two_lines, advice_row);
}

std::string plot_of_sizes(const std::vector<Measured>& one_line, const std::vector<Measured>& two_lines) {
    const auto panel = [&](std::string title, Spread Measured::*what) {
        return test::Panel{
            std::move(title),
            {series("one line, mean", test::Marker::Disc, one_line, what, &Spread::mean),
             series("one line, most", test::Marker::Circle, one_line, what, &Spread::most),
             series("two lines, mean", test::Marker::Square, two_lines, what, &Spread::mean),
             series("two lines, most", test::Marker::OpenSquare, two_lines, what, &Spread::most)}};
    };
    test::Plot plot;
    plot.title = fmt::format("What proving a plan takes, within {} states of either class; two lines {}",
                             thousands(states_one_line), thousands(states_two_lines));
    plot.size_label = "probe points";
    plot.panels = {panel("Processor time, ms", &Measured::milliseconds),
                   panel("Expansions of states", &Measured::expansions),
                   panel("Memory, MB", &Measured::megabytes)};
    test::Series aims{"aim", test::Marker::Cross, false, {}};
    for (const Size& size : sizes)
        if (size.aim_milliseconds > 0)
            aims.dots.push_back({static_cast<double>(size.points), size.aim_milliseconds});
    plot.panels.front().series.push_back(aims);
    return test::svg(plot);
}

}  // namespace halfsplit::plan
