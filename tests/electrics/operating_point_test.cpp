// Volts with changes against a fresh solve of the changed circuit, ohms the same, on random buses; and by
// hand.
#include "halfsplit/electrics/operating_point.hpp"

#include "halfsplit/electrics/solver.hpp"

#include "support/catch.hpp"
#include "support/random_network.hpp"

#include <cmath>

using halfsplit::electrics::changed;
using halfsplit::electrics::Circuit;
using halfsplit::electrics::Node;
using halfsplit::electrics::open_circuit;
using halfsplit::electrics::OperatingPoint;
using halfsplit::electrics::Solver;
using halfsplit::test::Random;
using halfsplit::test::random_network;
using halfsplit::test::RandomNetwork;

namespace {

std::vector<Node> all_nodes(const Circuit& circuit) {
    std::vector<Node> nodes;
    for (Node node = 0; node < circuit.nodes; ++node) nodes.push_back(node);
    return nodes;
}

// Two lists of volts that should be the same.
std::size_t require_same(const std::vector<double>& updated, const std::vector<double>& fresh) {
    std::size_t afloat = 0;
    for (std::size_t i = 0; i < fresh.size(); ++i) {
        INFO("node " << i);
        REQUIRE(std::isnan(updated[i]) == std::isnan(fresh[i]));
        if (std::isnan(fresh[i])) {
            ++afloat;
        } else {
            REQUIRE(updated[i] == Approx(fresh[i]).epsilon(1e-6).margin(1e-12));
        }
    }
    return afloat;
}

}  // namespace

TEST_CASE("a changed bus with its battery on stands at the volts it would have if built that way") {
    Random dice(20260501);
    std::size_t afloat = 0;
    std::size_t held = 0;
    for (int round = 0; round < 300; ++round) {
        INFO("round " << round);
        const RandomNetwork network = random_network(dice, true, 2, 40);
        const auto nodes = all_nodes(network.circuit);
        const OperatingPoint sound(network.circuit, network.held);
        const OperatingPoint broken(changed(network.circuit, network.faults), network.held);
        const std::size_t here = require_same(sound.volts(nodes, network.faults), broken.volts(nodes));
        afloat += here;
        held += nodes.size() - here;
    }
    REQUIRE(afloat > 1000);
    REQUIRE(held > 1000);
}

TEST_CASE("a changed bus with its battery off reads as if built that way") {
    Random dice(20260502);
    std::size_t open = 0;
    for (int round = 0; round < 300; ++round) {
        INFO("round " << round);
        const RandomNetwork network = random_network(dice, false, 2, 40);
        const Solver sound(network.circuit);
        const Solver broken(changed(network.circuit, network.faults));
        for (Node node = 1; node < network.circuit.nodes; ++node) {
            const double updated = sound.resistance({node, node - 1}, network.faults);
            const double fresh = broken.resistance({node, node - 1});
            REQUIRE(std::isinf(updated) == std::isinf(fresh));
            if (std::isfinite(fresh)) REQUIRE(updated == Approx(fresh).epsilon(1e-6));
            if (std::isinf(fresh)) ++open;
        }
    }
    REQUIRE(open > 100);
}

TEST_CASE("a divider stands where the resistances put it, and moves with them") {
    // 12 V over 1 kohm and 2 kohm: arithmetic.
    const Circuit divider{3, {{1, 2, 1000}, {2, 0, 2000}}};
    const OperatingPoint point(divider, {{0, 0}, {1, 12}});
    REQUIRE(point.volts({0, 1, 2}) == std::vector<double>{0, 12, 8});
    REQUIRE(point.volts({2}, {{0, 4000}}).front() == Approx(4));
    REQUIRE(point.volts({2}, {{1, open_circuit}}).front() == Approx(12));
    REQUIRE(point.volts({2}, {{0, open_circuit}}).front() == Approx(0).margin(1e-15));
    REQUIRE(std::isnan(point.volts({2}, {{0, open_circuit}, {1, open_circuit}}).front()));
}

TEST_CASE("what hangs together with nothing floats until a change ties it") {
    const Circuit circuit{4, {{1, 0, 100}, {2, 3, 100}, {1, 2, open_circuit}}};
    const OperatingPoint point(circuit, {{1, 5}});
    REQUIRE(point.volts({0}).front() == Approx(5));
    REQUIRE(std::isnan(point.volts({3}).front()));
    REQUIRE(point.volts({3}, {{2, 1.0}}).front() == Approx(5));
}

TEST_CASE("a large powered circuit, whose inverse is not kept, gives the same figures") {
    // 1000 nodes of 0.5 ohm in a row from 10 V to 0 V, and a way round of 100 ohm from 400 to 600.
    Circuit chain{1000, {}};
    for (Node node = 0; node + 1 < 1000; ++node) chain.edges.push_back({node, node + 1, 0.5});
    chain.edges.push_back({400, 600, 100.0});
    const OperatingPoint point(chain, {{0, 10}, {999, 0}});
    // By hand: 200 ohm, then 100 parallel to 100, then 199.5: 449.5 in all; cut at 500, 499.5.
    REQUIRE(point.volts({400}).front() == Approx(10 - 10 * 200 / 449.5).epsilon(1e-9));
    REQUIRE(point.volts({400}, {{500, open_circuit}}).front() == Approx(10 - 10 * 200 / 499.5).epsilon(1e-9));
    REQUIRE(point.volts({500}, {{500, open_circuit}, {999, open_circuit}}).front() == Approx(10));
}

TEST_CASE("sources that make no sense are refused") {
    const Circuit circuit{2, {{0, 1, 1.0}}};
    REQUIRE_THROWS_AS(OperatingPoint(circuit, {{2, 0}}), std::invalid_argument);
    REQUIRE_THROWS_AS(OperatingPoint(circuit, {{1, 0}, {1, 5}}), std::invalid_argument);
    REQUIRE_THROWS_AS(OperatingPoint(circuit, {{1, open_circuit}}), std::invalid_argument);
    REQUIRE_THROWS_AS(OperatingPoint(Circuit{2, {{0, 2, 1.0}}}, {{0, 0}}), std::invalid_argument);
    REQUIRE_THROWS_AS(OperatingPoint(Circuit{2, {{0, 1, 0.0}}}, {{0, 0}}), std::invalid_argument);
}
