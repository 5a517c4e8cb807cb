// A six-node bus chain in 62 states, 18 readings each: ngspice 39.3 (DC operating point, 1 A test source),
// confirmed by exact rational nodal analysis. The file says how each case was made.
#include "halfsplit/electrics/solver.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"

#include <cmath>
#include <map>
#include <string>

using halfsplit::electrics::Change;
using halfsplit::electrics::Circuit;
using halfsplit::electrics::Node;
using halfsplit::electrics::open_circuit;
using halfsplit::electrics::Solver;
using halfsplit::electrics::Tips;
using nlohmann::json;

namespace {

// Nodes h1..h6 are 0..5, l1..l6 are 6..11.
Node node(const std::string& name) {
    return static_cast<Node>(std::stoi(name.substr(1)) - 1) + (name[0] == 'l' ? 6 : 0);
}

struct Chain {
    Circuit circuit{12, {}};
    std::map<std::string, std::size_t> edge;

    explicit Chain(const json& params) {
        const double segment = params.value("rseg", 0.05);
        for (int k = 1; k <= 5; ++k) {
            for (const std::string line : {"h", "l"}) {
                add(line + "seg" + std::to_string(k), node(line + std::to_string(k)),
                    node(line + std::to_string(k + 1)), segment);
            }
        }
        const auto terminators = params.value("terms", std::vector<int>{1, 6});
        for (int k = 1; k <= 6; ++k) {
            const bool fitted = std::count(terminators.begin(), terminators.end(), k) > 0;
            const std::string at = std::to_string(k);
            add("term" + at, node("h" + at), node("l" + at),
                fitted ? params.value("rt", 120.0) : open_circuit);
            add("short" + at, node("h" + at), node("l" + at), open_circuit);
            if (params.contains("rid") && !params["rid"].is_null()) {
                add("rid" + at, node("h" + at), node("l" + at), params["rid"].get<double>());
            }
        }
    }

    void add(const std::string& name, Node from, Node to, double ohm) {
        edge[name] = circuit.edges.size();
        circuit.edges.push_back({from, to, ohm});
    }

    // What is wrong, as changes to the healthy chain.
    std::vector<Change> changes(const json& params) const {
        std::vector<Change> result;
        for (const std::string line : {"H", "L"}) {
            const std::string prefix = line == "H" ? "hseg" : "lseg";
            for (const int k : params.value("open" + line, std::vector<int>{})) {
                result.push_back({edge.at(prefix + std::to_string(k)), open_circuit});
            }
            const json joints = params.value("seg" + line, json::object());
            for (const auto& [k, ohm] : joints.items()) {
                result.push_back({edge.at(prefix + k), ohm.get<double>()});
            }
        }
        for (const auto& extra : params.value("extra", std::vector<std::string>{})) {
            result.push_back({edge.at("short" + extra.substr(5, 1)), 0.1});  // "RSH h3 l3 0.1"
        }
        return result;
    }
};

void require_reading(double solved, const json& expected) {
    if (expected.is_null()) {
        REQUIRE(std::isinf(solved));
    } else {
        // The figures were printed with seven digits.
        REQUIRE(solved == Approx(expected.get<double>()).epsilon(2e-6));
    }
}

}  // namespace

TEST_CASE("every reading of the six-node chain agrees with the circuit simulator") {
    const json file = json::parse(halfsplit::test::read_file("tests/data/meter_cases.json"));
    REQUIRE(file["cases"].size() == 62);
    std::size_t readings = 0;
    for (const json& one : file["cases"]) {
        INFO(one["name"].get<std::string>());
        const Chain chain(one["params"]);
        const Solver healthy(chain.circuit);
        const auto changes = chain.changes(one["params"]);
        Circuit faulty = chain.circuit;
        for (const Change& change : changes) faulty.edges[change.edge].ohm = change.ohm;
        const Solver fresh(faulty);
        for (const auto& [probe, expected] : one["readings_ohm"].items()) {
            INFO(probe);
            const Tips tips{node(probe.substr(0, 2)), node(probe.substr(3, 2))};
            require_reading(healthy.resistance(tips, changes), expected);
            require_reading(fresh.resistance(tips), expected);
            ++readings;
        }
    }
    REQUIRE(readings == 62 * 18);
}

TEST_CASE("the way round through both terminators is 240 ohm and more, not open") {
    // Table of the six-node chain: H open in segment 3 reads 240.35 from H1 to H4.
    const Chain chain(json{{"rseg", 0.05}});
    const Solver solver(chain.circuit);
    const std::vector<Change> open{{chain.edge.at("hseg3"), open_circuit}};
    REQUIRE(solver.resistance({node("h1"), node("h4")}, open) == Approx(240.35).epsilon(1e-6));
    REQUIRE(solver.resistance({node("h1"), node("h3")}, open) == Approx(0.10).epsilon(1e-6));
}

TEST_CASE("a bad joint of 20 ohm reads 65 from either end and passes for healthy") {
    const Chain chain(json{{"rseg", 0.0001}});
    const Solver solver(chain.circuit);
    const std::vector<Change> joint{{chain.edge.at("hseg3"), 20.0}};
    // 120 parallel to (120 + 20): arithmetic.
    REQUIRE(solver.resistance({node("h1"), node("l1")}, joint) == Approx(120.0 * 140 / 260).epsilon(1e-4));
    REQUIRE(solver.resistance({node("h6"), node("l6")}, joint) == Approx(120.0 * 140 / 260).epsilon(1e-4));
}
