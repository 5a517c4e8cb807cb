// Changes against a fresh factorisation of the changed circuit, on random circuits: chain, ring, star,
// several parts.
#include "halfsplit/electrics/solver.hpp"

#include "support/catch.hpp"
#include "support/random_harness.hpp"

#include <cmath>

using halfsplit::electrics::Change;
using halfsplit::electrics::Circuit;
using halfsplit::electrics::open_circuit;
using halfsplit::electrics::Solver;
using halfsplit::electrics::Tips;
using halfsplit::test::Random;

namespace {

double roll(Random& dice) {
    return static_cast<double>(dice.next() >> 11U) * 0x1.0p-53;
}

Circuit random_circuit(Random& dice) {
    Circuit circuit;
    circuit.nodes = 3 + dice.below(30);
    const std::size_t edges = circuit.nodes + dice.below(circuit.nodes);
    for (std::size_t e = 0; e < edges; ++e) {
        const std::size_t from = dice.below(circuit.nodes);
        const std::size_t to = dice.below(circuit.nodes);
        if (from == to) continue;
        // Milliohms to tens of kilohms, as on a bus; some edges are not there.
        const double ohm = dice.below(8) == 0 ? open_circuit : std::pow(10.0, -2 + 6 * roll(dice));
        circuit.edges.push_back({from, to, ohm});
    }
    return circuit;
}

std::vector<Change> random_changes(const Circuit& circuit, Random& dice) {
    std::vector<Change> changes;
    for (std::size_t e = 0; e < circuit.edges.size(); ++e) {
        if (dice.below(6) != 0) continue;
        changes.push_back({e, dice.below(2) == 0 ? open_circuit : std::pow(10.0, -1 + 4 * roll(dice))});
    }
    return changes;
}

}  // namespace

TEST_CASE("a changed circuit reads as if it had been built that way") {
    Random dice(20260301);
    std::size_t open = 0;
    for (int round = 0; round < 400; ++round) {
        const Circuit circuit = random_circuit(dice);
        if (circuit.edges.empty()) continue;
        const std::vector<Change> changes = random_changes(circuit, dice);
        Circuit changed = circuit;
        for (const Change& change : changes) changed.edges[change.edge].ohm = change.ohm;
        const Solver solver(circuit);
        const Solver fresh(changed);
        for (int pair = 0; pair < 10; ++pair) {
            const Tips tips{dice.below(circuit.nodes), dice.below(circuit.nodes)};
            const double expected = fresh.resistance(tips);
            const double updated = solver.resistance(tips, changes);
            INFO("round " << round);
            if (std::isinf(expected)) {
                ++open;
                REQUIRE(std::isinf(updated));
            } else {
                REQUIRE(updated == Approx(expected).epsilon(1e-6).margin(1e-9));
            }
        }
    }
    REQUIRE(open > 100);  // the bank holds both kinds
}

TEST_CASE("a large circuit, whose inverse is not kept, gives the same figures") {
    Circuit chain{3000, {}};
    for (std::size_t node = 0; node + 1 < 3000; ++node) chain.edges.push_back({node, node + 1, 0.5});
    chain.edges.push_back({0, 2999, 100.0});
    const Solver solver(chain);
    // Series and parallel by hand: 1499.5 ohm parallel to 100 ohm; cut open, 100 ohm is left.
    REQUIRE(solver.resistance({0, 2999}) == Approx(1499.5 * 100 / 1599.5).epsilon(1e-9));
    REQUIRE(solver.resistance({0, 2999}, {{500, open_circuit}}) == Approx(100).epsilon(1e-9));
    REQUIRE(solver.resistance({0, 500}, {{500, open_circuit}}) == Approx(250).epsilon(1e-9));
    REQUIRE(std::isinf(solver.resistance({0, 2999}, {{500, open_circuit}, {2999, open_circuit}})));
}

TEST_CASE("a circuit that makes no sense is refused") {
    REQUIRE_THROWS_AS(Solver(Circuit{2, {{0, 2, 1.0}}}), std::invalid_argument);
    REQUIRE_THROWS_AS(Solver(Circuit{2, {{0, 1, 0.0}}}), std::invalid_argument);
    REQUIRE_THROWS_AS(Solver(Circuit{2, {{0, 1, std::nan("")}}}), std::invalid_argument);
}

TEST_CASE("the portions of all edges add up to the resistance, and each is what its own ohms are worth") {
    Random dice(20260412);
    std::size_t compared = 0;
    for (int round = 0; round < 120; ++round) {
        const Circuit circuit = random_circuit(dice);
        if (circuit.edges.empty()) continue;
        const std::vector<Change> changes = random_changes(circuit, dice);
        const Circuit changed = halfsplit::electrics::changed(circuit, changes);
        std::vector<std::size_t> all(circuit.edges.size());
        for (std::size_t e = 0; e < all.size(); ++e) all[e] = e;
        const Tips tips{dice.below(circuit.nodes), dice.below(circuit.nodes)};
        const auto portions = Solver(circuit).portions({tips}, changes, all).front();
        double sum = 0;
        for (const double portion : portions.of) sum += portion;
        if (portions.ohm == open_circuit || tips.red == tips.black) {
            REQUIRE(sum == 0);
            continue;
        }
        REQUIRE(sum == Approx(portions.ohm).epsilon(1e-6));
        const std::size_t edge = dice.below(circuit.edges.size());
        if (changed.edges[edge].ohm == open_circuit) continue;
        Circuit more = changed;
        more.edges[edge].ohm *= 1.001;
        Circuit less = changed;
        less.edges[edge].ohm /= 1.001;
        const double slope =
            (Solver(more).resistance(tips) - Solver(less).resistance(tips)) / (2 * std::log(1.001));
        REQUIRE(portions.of[edge] == Approx(slope).epsilon(1e-3).margin(1e-6 * portions.ohm));
        ++compared;
    }
    REQUIRE(compared > 30);
}
