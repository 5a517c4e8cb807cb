// The text for the simulator: what a person and the simulator read.
#include "halfsplit/electrics/netlist.hpp"

#include "halfsplit/electrics/labels.hpp"
#include "halfsplit/harness/variants.hpp"

#include "support/catch.hpp"
#include "support/circuit_simulator.hpp"
#include "support/small_chain.hpp"

#include <set>

using namespace halfsplit::electrics;
using halfsplit::test::small_chain;

TEST_CASE("a question in ohms is a circuit with one ampere between the tips", "[posix]") {
    const Circuit circuit{4, {{0, 1, 0.5}, {1, 2, 120}, {1, 3, open_circuit}}};
    Netlist netlist("a stub");
    REQUIRE(netlist.add_ohms(circuit, {{1, 60.0}}, {0, 2}, {{"X1.a:4", "", "T1:2"}, {"wire W4 h"}}) ==
            "ohm_1");
    REQUIRE(netlist.text() ==
            "* a stub\n"
            "v_floating floating 0 dc 1000000\n"
            "* ohm_1: one ampere from q1_n0_x1_a_4 to q1_n2_t1_2\n"
            "r_q1_e0_wire_w4_h q1_n0_x1_a_4 q1_n1 0.5\n"
            "r_q1_e1 q1_n1 q1_n2_t1_2 60\n"
            "v_q1_black q1_n2_t1_2 0 dc 0\n"
            "i_q1_test 0 q1_n0_x1_a_4 dc 1\n"
            "r_tie_q1_n3 q1_n3 0 1000000000\n"
            ".options reltol=1e-12 vntol=1e-15 abstol=1e-15\n"
            ".control\n"
            "set numdgt=12\n"
            "op\n"
            "let ohm_1 = v(q1_n0_x1_a_4)\n"
            "print ohm_1\n"
            "quit\n"
            ".endc\n"
            ".end\n");
    REQUIRE(halfsplit::test::simulate(netlist.text()).at("ohm_1") == Approx(60.5));
}

TEST_CASE("open and floating are told by figures no vehicle has", "[posix]") {
    const Circuit circuit{4, {{0, 1, 100}, {2, 3, 100}}};
    Netlist netlist("two parts");
    const std::string apart = netlist.add_ohms(circuit, {}, {0, 3});
    const std::string same = netlist.add_ohms(circuit, {}, {3, 3});
    const auto volts = netlist.add_volts(circuit, {}, {{0, 12.6}}, {1, 2});
    const auto figures = halfsplit::test::simulate(netlist.text());
    REQUIRE(figures.at(apart) >= simulated_open_ohm);
    REQUIRE(figures.at(same) == 0);
    REQUIRE(figures.at(volts[0]) == Approx(12.6));
    REQUIRE(figures.at(volts[1]) >= simulated_floating_volt);
}

TEST_CASE("labels that differ by signs or capitals alone still name different nodes", "[posix]") {
    const Circuit circuit{2, {{0, 1, 100}}};
    Netlist netlist("look-alikes");
    const auto figure = netlist.add_ohms(circuit, {}, {0, 1}, {{"A:1", "a.1"}, {}});
    REQUIRE(halfsplit::test::simulate(netlist.text()).at(figure) == Approx(100));
}

TEST_CASE("the circuit of a harness is labelled by its parts and terminals") {
    const auto& harness = small_chain();
    const auto variant = halfsplit::harness::variants(harness).front();
    const Assembly assembly = assemble(harness, 0, variant.present, Power::Awake);
    const Labels called = labels(harness, assembly);
    REQUIRE(called.nodes.size() == assembly.circuit.nodes);
    REQUIRE(called.edges.size() == assembly.circuit.edges.size());
    REQUIRE(called.nodes[assembly.bias] == "bias");
    const std::set<std::string> nodes(called.nodes.begin(), called.nodes.end());
    const std::set<std::string> edges(called.edges.begin(), called.edges.end());
    for (const char* name : {"ground", "supply", "X1.a:4", "DS:6", "inside M1 h"})
        REQUIRE(nodes.count(name) == 1);
    for (const char* name : {"loads", "wire W4 h", "contact X1 4", "terminator T1", "transceiver M1"})
        REQUIRE(edges.count(name) == 1);
}
