// Our solver against a general-purpose circuit simulator (ngspice) on random buses, sound and faulty, battery
// off and on.
#include "halfsplit/electrics/netlist.hpp"

#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/electrics/labels.hpp"
#include "halfsplit/electrics/operating_point.hpp"
#include "halfsplit/electrics/solver.hpp"
#include "halfsplit/harness/variants.hpp"

#include "support/catch.hpp"
#include "support/circuit_simulator.hpp"
#include "support/harnesses.hpp"
#include "support/random_network.hpp"

#include <cmath>
#include <map>

using namespace halfsplit::electrics;
using halfsplit::test::Random;
using halfsplit::test::random_network;
using halfsplit::test::RandomNetwork;

namespace {

// Puts the same questions to both, the simulator's in batches, and compares.
class Comparison {
  public:
    ~Comparison() = default;

    void ask_ohms(const Solver& solver, const std::vector<Change>& changes, Tips tips,
                  const Labels& labels = {}) {
        const std::string figure = netlist_.add_ohms(solver.circuit(), changes, tips, labels);
        expected_[figure] = solver.resistance(tips, changes);
        run_when_full();
    }

    void ask_volts(const Circuit& circuit, const std::vector<Change>& changes, const std::vector<Held>& held,
                   const std::vector<Node>& nodes, const Labels& labels = {}) {
        const auto figures = netlist_.add_volts(circuit, changes, held, nodes, labels);
        const auto volts = OperatingPoint(circuit, held).volts(nodes, changes);
        for (std::size_t i = 0; i < nodes.size(); ++i) expected_[figures[i]] = volts[i];
        run_when_full();
    }

    void run() {
        const auto simulated = halfsplit::test::simulate(netlist_.text());
        for (const auto& [figure, value] : expected_) {
            INFO(figure << " of batch " << batches_);
            const auto found = simulated.find(figure);
            REQUIRE(found != simulated.end());
            compare(figure[0] == 'o', value, found->second);
        }
        ++batches_;
        netlist_ = Netlist("random buses");
        expected_.clear();
    }

    std::size_t ohms = 0, open = 0, volts = 0, afloat = 0;
    double largest_of_ohms = 0, largest_of_volts = 0;

  private:
    void run_when_full() {
        if (expected_.size() >= 150) run();
    }

    void compare(bool in_ohms, double ours, double theirs) {
        INFO("solver " << ours << ", simulator " << theirs);
        if (in_ohms) {
            REQUIRE(std::isinf(ours) == (theirs >= simulated_open_ohm));
            ++(std::isinf(ours) ? open : ohms);
            if (std::isfinite(ours)) note(largest_of_ohms, ours, theirs);
        } else {
            REQUIRE(std::isnan(ours) == (theirs >= simulated_floating_volt));
            ++(std::isnan(ours) ? afloat : volts);
            if (std::isfinite(ours)) note(largest_of_volts, ours, theirs);
        }
    }

    static void note(double& largest, double ours, double theirs) {
        const double size = std::max(std::abs(ours), std::abs(theirs));
        if (size > 0) largest = std::max(largest, std::abs(ours - theirs) / size);
        REQUIRE(largest < 1e-6);
    }

    Netlist netlist_{"random buses"};
    std::map<std::string, double> expected_;
    std::size_t batches_ = 0;
};

Node random_node(const RandomNetwork& network, Random& dice) {
    if (dice.chance(5)) return network.ground;
    if (dice.chance(5)) return network.supply;
    return network.points[dice.below(network.points.size())][dice.below(2)];
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
    WARN(comparison.ohms << " " << comparison.open << " " << comparison.largest_of_ohms);
}

TEST_CASE("random buses, battery on, stand at the volts that the circuit simulator says") {
    Random dice(20260412);
    Comparison comparison;
    for (int round = 0; round < 1000; ++round) {
        const RandomNetwork network = random_network(dice, true);
        std::vector<Node> nodes;
        for (int i = 0; i < 4; ++i) nodes.push_back(random_node(network, dice));
        comparison.ask_volts(network.circuit, network.faults, network.held, nodes);
    }
    comparison.run();
    WARN(comparison.volts << " " << comparison.afloat << " " << comparison.largest_of_volts);
}
