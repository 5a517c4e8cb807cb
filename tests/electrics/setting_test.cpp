// Faults in a setting against the same changes made at once, and against the star-mesh rule.
#include "halfsplit/electrics/setting.hpp"

#include "halfsplit/diagnosis/predictor.hpp"

#include "electrics/cuts.hpp"
#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/plain_solve.hpp"
#include "support/random_harness.hpp"
#include "support/random_network.hpp"

#include <algorithm>
#include <cmath>

using namespace halfsplit;
using namespace halfsplit::electrics;
using halfsplit::test::Random;

namespace {

std::vector<Tips> random_tips(const Circuit& circuit, Random& dice, std::size_t count) {
    std::vector<Tips> tips;
    for (std::size_t i = 0; i < count; ++i)
        tips.push_back({dice.below(circuit.nodes), dice.below(circuit.nodes)});
    return tips;
}

// A part apart, and one or two faults of a random harness.
struct Trouble {
    harness::Harness harness;
    diagnosis::Predictor predictor{harness, 0};
    diagnosis::Explanation explanation;
    diagnosis::Situation situation;

    Trouble(std::uint64_t seed, Random& dice)
        : harness(test::harness_from_text(test::random_harness_json(seed, {.most_points = 24}))) {
        const auto faults = diagnosis::all_faults(harness, assembly());
        explanation.faults.push_back(faults[dice.below(faults.size())]);
        if (dice.chance(50)) explanation.faults.push_back(faults[dice.below(faults.size())]);
        if (dice.chance(70)) situation.apart.push_back(dice.below(harness.parts.size()));
    }
    const Assembly& assembly() { return predictor.circuit(0).assembly; }
    std::vector<Change> apart() { return taken_apart(assembly(), harness, situation.apart); }
    std::vector<Change> changes() { return predictor.changes(explanation, situation); }
    std::vector<Change> faults() { return predictor.changes(explanation, {}); }
};

void require_same(double one, double other, double relative) {
    REQUIRE(std::isinf(one) == std::isinf(other));
    if (!std::isinf(other)) REQUIRE(std::abs(one - other) <= relative * std::abs(other) + 1e-15);
}

}  // namespace

TEST_CASE("faults in a setting read as if all had been changed at once") {
    Random dice(20261125);
    std::size_t open = 0, closed = 0;
    for (std::uint64_t seed = 1; seed <= 400; ++seed) {
        Trouble trouble(seed, dice);
        const Solver& solver = trouble.predictor.circuit(0).solver;
        const auto tips = random_tips(solver.circuit(), dice, 20);
        const auto at_once = solver.resistances(tips, trouble.changes());
        const auto on_top = Setting(solver, trouble.apart(), tips).resistances(trouble.faults());
        for (std::size_t t = 0; t < tips.size(); ++t) {
            INFO("seed " << seed << ", tips " << tips[t].red << ' ' << tips[t].black);
            require_same(on_top[t], at_once[t], 1e-6);
            ++(std::isinf(at_once[t]) ? open : closed);
        }
    }
    REQUIRE(open > 100);  // the bank holds both kinds
    REQUIRE(closed > 5000);
}

TEST_CASE("however little the faults leave of the line, figures keep their digits") {
    Random dice(20261126);
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        Trouble trouble(seed, dice);
        const Solver& solver = trouble.predictor.circuit(0).solver;
        const auto tips = random_tips(solver.circuit(), dice, 10);
        const auto ohms = Setting(solver, trouble.apart(), tips).resistances(trouble.faults());
        const auto at_once = solver.resistances(tips, trouble.changes());
        const Circuit broken = changed(solver.circuit(), trouble.changes());
        for (std::size_t t = 0; t < tips.size(); ++t) {
            INFO("seed " << seed << ", tips " << tips[t].red << ' ' << tips[t].black);
            const double plain = test::plain_resistance(broken, tips[t].red, tips[t].black);
            require_same(ohms[t], plain, 1e-5);
            require_same(at_once[t], plain, 5e-8);
        }
    }
}

TEST_CASE("edges part a graph where the walk says so, and nowhere else") {
    Random dice(20261127);
    std::size_t parted = 0, bridges = 0;
    for (int round = 0; round < 500; ++round) {
        const auto network = test::random_network(dice, true, 2, 20);
        const Circuit& circuit = network.circuit;
        const Graph graph(circuit);
        std::vector<char> conducts(circuit.edges.size());
        for (std::size_t e = 0; e < conducts.size(); ++e)
            conducts[e] = is_present(circuit.edges[e].ohm) && dice.chance(60) ? 1 : 0;
        const Cuts cuts(circuit, graph, conducts);
        const auto before = graph.components(conducts);
        const auto count = [](const std::vector<std::size_t>& of) {
            return of.empty() ? 0 : *std::max_element(of.begin(), of.end()) + 1;
        };
        std::vector<std::size_t> opened;
        std::vector<char> left = conducts;
        for (std::size_t e = 0; e < conducts.size() && opened.size() < 3; ++e) {
            if (conducts[e] == 0 || !dice.chance(15)) continue;
            opened.push_back(e);
            left[e] = 0;
        }
        const auto after = graph.components(left);
        INFO("round " << round);
        REQUIRE(cuts.part(opened) == (count(after) > count(before)));
        parted += cuts.part(opened) ? 1 : 0;
        if (opened.size() != 1 || !cuts.is_bridge(opened.front())) continue;
        ++bridges;
        for (Node a = 0; a < circuit.nodes; ++a)
            for (Node b = 0; b < circuit.nodes; ++b)
                if (before[a] == before[b])
                    REQUIRE(cuts.separates(opened.front(), a, b) == (after[a] != after[b]));
    }
    REQUIRE(parted > 50);
    REQUIRE(bridges > 5);
}
