// How the electrics and the advice grow with the bus. Build with -DHALFSPLIT_BENCHMARKS=ON, run
// `halfsplit_scale_benchmark` for everything or with a tag: [faults], [pairs], [memory], [next].
#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/electrics/setting.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/plan/one_step.hpp"

#include <Eigen/SparseCholesky>
#include <fmt/format.h>

#include "advice/problem.hpp"
#include "advice/standing.hpp"
#include "support/begun_job.hpp"
#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/large_bus.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace halfsplit {

namespace {

using diagnosis::Explanation;
using electrics::Circuit;

// Of the processor, so that other work on the machine counts little.
template <typename Work>
double seconds(Work work) {
    const std::clock_t start = std::clock();
    work();
    return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

std::vector<Explanation> single_faults(diagnosis::Predictor& predictor) {
    std::vector<Explanation> result;
    for (const auto& fault : diagnosis::all_faults(predictor.harness(), predictor.circuit(0).assembly))
        result.push_back({.faults = {fault}});
    return result;
}

// Every so many-th of a list, evenly, `count` in all.
template <typename T>
std::vector<T> thinned(const std::vector<T>& all, std::size_t count) {
    if (all.size() <= count) return all;
    std::vector<T> result;
    for (std::size_t i = 0; i < count; ++i) result.push_back(all[i * all.size() / count]);
    return result;
}

std::vector<electrics::Tips> some_readings(const harness::Harness& harness,
                                           const electrics::Assembly& assembly, std::size_t count) {
    std::vector<electrics::Tips> result;
    const auto readings = advice::candidate_readings(harness, 0, harness.networks[0].clip);
    for (const diagnosis::Tips& tips : thinned(readings, count)) {
        const auto node = [&](const diagnosis::Contact& contact) {
            if (contact.kind == diagnosis::Contact::Kind::Ground) return assembly.ground;
            if (contact.kind == diagnosis::Contact::Kind::Supply) return assembly.supply;
            return assembly.node_of_terminal[contact.terminal];
        };
        result.push_back({node(tips.red), node(tips.black)});
    }
    return result;
}

// What a fresh factorisation takes: sparse, one substitution for each test, nothing kept.
double solved_afresh(const Circuit& circuit, const std::vector<electrics::Tips>& tips) {
    using Sparse = Eigen::SparseMatrix<long double>;
    using Vector = Eigen::Matrix<long double, Eigen::Dynamic, 1>;
    const auto size = static_cast<Eigen::Index>(circuit.nodes);
    std::vector<Eigen::Triplet<long double>> entries;
    // A little conductance to nowhere at each node, in place of holding one of each part at zero.
    for (Eigen::Index node = 0; node < size; ++node) entries.emplace_back(node, node, 1e-12L);
    for (const electrics::Edge& edge : circuit.edges) {
        if (!electrics::is_present(edge.ohm)) continue;
        const auto from = static_cast<Eigen::Index>(edge.from), to = static_cast<Eigen::Index>(edge.to);
        const long double siemens = 1 / static_cast<long double>(edge.ohm);
        entries.emplace_back(from, from, siemens);
        entries.emplace_back(to, to, siemens);
        entries.emplace_back(from, to, -siemens);
        entries.emplace_back(to, from, -siemens);
    }
    Sparse matrix(size, size);
    matrix.setFromTriplets(entries.begin(), entries.end());
    const Eigen::SimplicialLDLT<Sparse> factor(matrix);
    long double sum = 0;
    for (const electrics::Tips& pair : tips) {
        Vector currents = Vector::Zero(size);
        currents[static_cast<Eigen::Index>(pair.red)] += 1;
        currents[static_cast<Eigen::Index>(pair.black)] -= 1;
        const Vector potential = factor.solve(currents);
        sum +=
            potential[static_cast<Eigen::Index>(pair.red)] - potential[static_cast<Eigen::Index>(pair.black)];
    }
    return static_cast<double>(sum);
}

// A job in which readings are next. Silent: no module answers; else those of the near quarter do.
job::State begun(const harness::Harness& harness, bool silent) {
    std::vector<std::string> modules, answering, others;
    for (const auto& part : harness.parts)
        if (part.kind == harness::PartKind::Module) modules.push_back(part.id);
    for (const std::string& module : modules) {
        const bool near = !silent && std::stoul(module.substr(1)) * 8 <= modules.size() + 7;
        (near ? answering : others).push_back(module);
    }
    return test::begun(answering, others);
}

void measure_next(const harness::Harness& harness, const std::string& what, bool silent) {
    const auto state = begun(harness, silent);
    diagnosis::Predictor predictor(harness, 0);
    const access::Costs costs(harness, 0);
    diagnosis::Belief belief;
    advice::Posed posed;
    plan::Recommendation plan;
    const double preparing = seconds([&] { predictor.circuit(0); });
    const double believing = seconds([&] { belief = infer(predictor, advice::evidence(harness, 0, state)); });
    const double posing = seconds([&] {
        posed = advice::pose({{harness, 0, belief, costs, advice::standing_of(harness, 0, costs, state),
                               advice::clip_point(harness, 0, state)},
                              {},
                              {}},
                             predictor);
    });
    const double planning =
        seconds([&] { plan = plan::one_step(posed.problem, {.limits = advice::planning_limits}); });
    const double all = seconds([&] { advice::Advisor(harness, 0).advise(state); });
    fmt::print(
        "{}, {}: {} explanations, {} readings in {} arrangements, {} hypotheses, {} expansions; prepare "
        "{:.3f} "
        "s, believe {:.3f} s, pose {:.3f} s, plan {:.3f} s; next {:.3f} s\n",
        what, silent ? "silent" : "a scan that tells", belief.explanations.size(), posed.readings.size(),
        posed.arrangements.size(), posed.problem.hypotheses.size(), plan.truthful.states, preparing,
        believing, posing, planning, all);
    std::fflush(stdout);
}

}  // namespace

TEST_CASE("single faults against a fresh factorisation for each", "[faults]") {
    const auto harness = test::harness_from_text(test::large_bus_json(300));
    diagnosis::Predictor predictor(harness, 0);
    const auto& prepared = predictor.circuit(0);
    const Circuit& circuit = prepared.assembly.circuit;
    const auto tips = some_readings(harness, prepared.assembly, 500);
    std::vector<std::vector<electrics::Change>> faults;
    for (const Explanation& one : thinned(single_faults(predictor), 2000))
        faults.push_back(predictor.changes(one, {}));
    double sum = 0;
    const double together = seconds([&] {
        const electrics::Solver solver(circuit);
        const electrics::Setting setting(solver, {}, tips);
        for (const auto& changes : faults) sum += setting.resistances(changes).front();
    });
    const auto sample = thinned(faults, 40);
    const double afresh = seconds([&] {
        for (const auto& changes : sample) sum += solved_afresh(electrics::changed(circuit, changes), tips);
    });
    const double each = afresh / static_cast<double>(sample.size());
    const double factor_alone = seconds([&] {
        for (const auto& changes : sample) sum += solved_afresh(electrics::changed(circuit, changes), {});
    });
    const auto count = static_cast<double>(faults.size());
    REQUIRE(!std::isnan(sum));
    fmt::print(
        "{} nodes, {} faults, {} tests: {:.3f} s in all; a fresh factorisation and its substitutions for "
        "each "
        "fault {:.2f} ms, ratio {:.0f}; the factorisation alone {:.2f} ms, ratio {:.1f}\n",
        circuit.nodes, faults.size(), tips.size(), together, each * 1e3, each * count / together,
        factor_alone / static_cast<double>(sample.size()) * 1e3,
        factor_alone / static_cast<double>(sample.size()) * count / together);
}

TEST_CASE("double faults of 100 parts with 20 readings", "[pairs]") {
    const auto harness = test::harness_from_text(test::large_bus_json(300));
    diagnosis::Predictor predictor(harness, 0);
    const auto& prepared = predictor.circuit(0);
    const auto tips = some_readings(harness, prepared.assembly, 20);
    std::vector<diagnosis::Fault> faults;
    for (const Explanation& one : single_faults(predictor)) {
        // One figure for all ohms of a fault, as the planner and the pairs of the belief take them.
        const diagnosis::Fault& fault = one.faults.front();
        const auto other_ohms = [&](diagnosis::Fault other) {
            other.ohm = fault.ohm;
            return other == fault;
        };
        if (fault.part < 100 && std::none_of(faults.begin(), faults.end(), other_ohms))
            faults.push_back(fault);
    }
    std::size_t pairs = 0;
    double sum = 0;
    const double took = seconds([&] {
        const electrics::Setting setting(prepared.solver, {}, tips);
        for (std::size_t a = 0; a < faults.size(); ++a)
            for (std::size_t b = a + 1; b < faults.size(); ++b) {
                if (faults[a].part == faults[b].part) continue;
                ++pairs;
                const auto ohms =
                    setting.resistances(predictor.changes({.faults = {faults[a], faults[b]}}, {}));
                sum += std::min(ohms.front(), 1e9);
            }
    });
    REQUIRE(!std::isnan(sum));
    fmt::print("{} faults of 100 parts, {} pairs, {} readings: {:.3f} s\n", faults.size(), pairs, tips.size(),
               took);
}

// In a process of its own, so that its peak is its own.
TEST_CASE("memory at 10,000 points", "[memory]") {
    const std::string text = test::large_bus_json(10'000);
    std::fflush(stdout);  // or the child would print it once more
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        const auto harness = test::harness_from_text(text);
        diagnosis::Predictor predictor(harness, 0);
        const auto explanations = single_faults(predictor);
        const auto& prepared = predictor.circuit(0);
        const electrics::Setting setting(prepared.solver, {}, some_readings(harness, prepared.assembly, 4));
        std::vector<std::vector<double>> table(explanations.size(), std::vector<double>(4));
        std::size_t solved = 0;
        const double took = seconds([&] {
            for (std::size_t e = 0; e < explanations.size(); e += 50, ++solved)
                table[e] = setting.resistances(predictor.changes(explanations[e], {}));
        });
        fmt::print("{} nodes, {} single faults, 4 tests; {} of them solved in {:.1f} s\n",
                   prepared.assembly.circuit.nodes, explanations.size(), solved, took);
        std::fflush(stdout);
        std::_Exit(0);
    }
    int status = 0;
    rusage usage{};
    REQUIRE(wait4(child, &status, 0, &usage) == child);
    REQUIRE(status == 0);
    const double megabytes = static_cast<double>(usage.ru_maxrss) / 1024;
    fmt::print("peak of the process {:.0f} MB\n", megabytes);
    CHECK(megabytes < 200);
}

TEST_CASE("next", "[next]") {
    for (const auto sections : {test::Sections::Modules, test::Sections::Connectors})
        for (const std::size_t points : {50U, 100U, 200U, 300U})
            for (const bool silent : {false, true})
                measure_next(test::harness_from_text(test::large_bus_json(points, sections)),
                             fmt::format("{} points, {}", points,
                                         sections == test::Sections::Modules ? "modules and connectors"
                                                                             : "connectors alone"),
                             silent);
}

}  // namespace halfsplit
