// Our solver against a general-purpose circuit simulator (ngspice) on random buses, sound and faulty, battery
// off and on.
#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/electrics/labels.hpp"
#include "halfsplit/electrics/netlist.hpp"
#include "halfsplit/electrics/operating_point.hpp"
#include "halfsplit/electrics/solver.hpp"
#include "halfsplit/harness/variants.hpp"

#include "support/catch.hpp"
#include "support/circuit_simulator.hpp"
#include "support/harnesses.hpp"
#include "support/random_network.hpp"

#include <algorithm>
#include <cmath>
#include <map>

using halfsplit::diagnosis::Fault;
using namespace halfsplit::electrics;
using halfsplit::test::Random;
using halfsplit::test::random_network;
using halfsplit::test::RandomNetwork;

namespace {

// Puts the same questions to both, the simulator's in batches, and compares.
class Comparison {
  public:
    void ask_ohms(const Solver& solver, const std::vector<Change>& changes, Tips tips,
                  const Labels& labels = {}) {
        const std::string figure = netlist_.add_ohms(solver.circuit(), changes, tips, labels);
        ours_[figure] = solver.resistance(tips, changes);
        run_when_full();
    }

    void ask_volts(const Circuit& circuit, const std::vector<Change>& changes, const std::vector<Held>& held,
                   const std::vector<Node>& nodes, const Labels& labels = {}) {
        const auto figures = netlist_.add_volts(circuit, changes, held, nodes, labels);
        const auto volts = OperatingPoint(circuit, held).volts(nodes, changes);
        for (std::size_t i = 0; i < nodes.size(); ++i) ours_[figures[i]] = volts[i];
        run_when_full();
    }

    void run() {
        const auto simulated = halfsplit::test::simulate(netlist_.text());
        REQUIRE(simulated.size() >= ours_.size());
        for (const auto& [figure, ours] : ours_) {
            INFO(figure << ": solver " << ours << ", simulator " << simulated.at(figure));
            const bool in_ohms = figure.rfind("ohm", 0) == 0;
            const double limit = in_ohms ? simulated_open_ohm : simulated_floating_volt;
            compare(ours, simulated.at(figure), limit);
        }
        netlist_ = Netlist("random buses");
        ours_.clear();
    }

    std::size_t figures() const { return figures_; }
    std::size_t without_figure() const { return without_figure_; }   // OL or floating
    double largest_deviation() const { return largest_deviation_; }  // relative

  private:
    void run_when_full() {
        if (ours_.size() >= 150) run();
    }

    void compare(double ours, double theirs, double limit) {
        ++figures_;
        REQUIRE(std::isfinite(ours) == (theirs < limit));
        if (!std::isfinite(ours)) {
            ++without_figure_;
            return;
        }
        // Nothing finer than 1 mohm or 1 mV is ever shown; exact zeros have no relative deviation.
        const double size = std::max({std::abs(ours), std::abs(theirs), 1e-3});
        const double deviation = std::abs(ours - theirs) / size;
        largest_deviation_ = std::max(largest_deviation_, deviation);
        REQUIRE(deviation < 1e-6);
    }

    Netlist netlist_{"random buses"};
    std::map<std::string, double> ours_;
    std::size_t figures_ = 0, without_figure_ = 0;
    double largest_deviation_ = 0;
};

Node random_node(const RandomNetwork& network, Random& dice) {
    if (dice.chance(5)) return network.ground;
    if (dice.chance(5)) return network.supply;
    return network.points[dice.below(network.points.size())][dice.below(2)];
}

std::vector<Node> random_nodes(const RandomNetwork& network, std::size_t count, Random& dice) {
    std::vector<Node> nodes;
    while (nodes.size() < count) nodes.push_back(random_node(network, dice));
    return nodes;
}

// One or two faults of a harness that this assembly can have, on different edges.
std::vector<Change> random_faults(const std::vector<Fault>& faults, const Assembly& assembly, Random& dice) {
    std::vector<Change> result = changes(faults[dice.below(faults.size())], assembly);
    if (dice.chance(50)) return result;
    for (const Change& change : changes(faults[dice.below(faults.size())], assembly)) {
        const bool taken = std::any_of(result.begin(), result.end(),
                                       [&](const Change& other) { return other.edge == change.edge; });
        if (!taken) result.push_back(change);
    }
    return result;
}

// A terminal of the bus, where a lead can be.
Node random_terminal(const Assembly& assembly, Random& dice) {
    for (;;) {
        const Node node = assembly.node_of_terminal[dice.below(assembly.node_of_terminal.size())];
        if (node != halfsplit::harness::none) return node;
    }
}

}  // namespace

TEST_CASE("random buses, battery off, read as the circuit simulator says") {
    Random dice(20260411);
    Comparison comparison;
    for (int round = 0; round < 1000; ++round) {
        const RandomNetwork network = random_network(dice, false);
        const Solver solver(network.circuit);
        comparison.ask_ohms(solver, network.faults, {random_node(network, dice), random_node(network, dice)});
    }
    comparison.run();
    REQUIRE(comparison.figures() == 1000);
    REQUIRE(comparison.without_figure() > 50);  // OL
    REQUIRE(comparison.largest_deviation() < 1e-6);
}

TEST_CASE("random buses, battery on, stand at the volts that the circuit simulator says") {
    Random dice(20260412);
    Comparison comparison;
    for (int round = 0; round < 1000; ++round) {
        const RandomNetwork network = random_network(dice, true);
        comparison.ask_volts(network.circuit, network.faults, network.held, random_nodes(network, 4, dice));
    }
    comparison.run();
    REQUIRE(comparison.figures() == 4000);
    REQUIRE(comparison.without_figure() > 500);  // floating
    REQUIRE(comparison.largest_deviation() < 1e-6);
}

TEST_CASE("random harnesses read, battery off and on, as the circuit simulator says") {
    Random dice(20260413);
    Comparison comparison;
    for (std::uint64_t seed = 0; seed < 120; ++seed) {
        const auto harness = halfsplit::test::harness_from_text(halfsplit::test::random_harness_json(seed));
        const auto variants = halfsplit::harness::variants(harness);
        const auto& present = variants[dice.below(variants.size())].present;
        const Assembly off = assemble(harness, 0, present);
        const auto broken = random_faults(halfsplit::diagnosis::all_faults(harness, off), off, dice);
        const Solver solver(off.circuit);
        for (int reading = 0; reading < 3; ++reading) {
            const Tips tips{random_terminal(off, dice), random_terminal(off, dice)};
            comparison.ask_ohms(solver, broken, tips, labels(harness, off));
        }
        const Assembly on = assemble(harness, 0, present, dice.chance(80) ? Power::Awake : Power::Asleep);
        std::vector<Node> nodes{on.ground, on.supply, on.bias};
        for (int reading = 0; reading < 5; ++reading) nodes.push_back(random_terminal(on, dice));
        comparison.ask_volts(on.circuit, broken, on.held, nodes, labels(harness, on));
    }
    comparison.run();
    REQUIRE(comparison.figures() == 1320);  // 3 in ohms and 8 in volts each
    REQUIRE(comparison.largest_deviation() < 1e-6);
}

TEST_CASE("a circuit without one solution is no answer of the simulator") {
    // A part that nothing holds, with one ampere into it: singular.
    REQUIRE_THROWS_AS(halfsplit::test::simulate("* afloat\ni1 0 a dc 1\nr1 a b 1\nr2 b a 1\n.control\nop\n"
                                                "print v(a)\nquit\n.endc\n.end\n"),
                      std::runtime_error);
}
