// What a distance can be measured along, and where on it a fault lies, held against the solved circuit.
#include "halfsplit/electrics/stretch.hpp"

#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/electrics/conductor.hpp"
#include "halfsplit/electrics/solver.hpp"
#include "halfsplit/harness/variants.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"

#include <algorithm>

using namespace halfsplit::electrics;
using namespace halfsplit::test;
using halfsplit::harness::find_part;
using halfsplit::harness::find_point;
using halfsplit::harness::Harness;
using Kind = Obstacle::Kind;

namespace {

Assembly assembly_of(const Harness& harness) {
    return assemble(harness, 0, halfsplit::harness::variants(harness).front().present);
}

Apart apart(const std::vector<std::string>& parts) {
    Apart result;
    for (const std::string& part : parts) result.push_back(find_part(small_chain(), part));
    std::sort(result.begin(), result.end());
    return result;
}

std::variant<Stretch, Obstacle> find(const std::string& from, const std::string& to,
                                     const std::vector<std::string>& unplugged) {
    const Harness& chain = small_chain();
    return find_stretch(chain, assembly_of(chain), apart(unplugged), find_point(chain, from),
                        find_point(chain, to));
}

Stretch stretch(const std::string& from, const std::string& to, const std::vector<std::string>& unplugged) {
    return std::get<Stretch>(find(from, to, unplugged));
}

Obstacle obstacle(const std::string& from, const std::string& to, const std::vector<std::string>& unplugged) {
    return std::get<Obstacle>(find(from, to, unplugged));
}

std::vector<std::string> names(const std::vector<halfsplit::harness::Index>& parts) {
    std::vector<std::string> result;
    for (const auto part : parts) result.push_back(small_chain().parts[part].id);
    return result;
}

using Names = std::vector<std::string>;

}  // namespace

// M1 (unplugged) W5 1.5 m, X2, W6 1.2 m, BP1, W7 0.6 m, T1 (unplugged).
TEST_CASE("a stretch leads through runs, connectors and bridge plugs from end to end") {
    const Stretch way = stretch("M1:3/4", "T1:1/2", {"M1", "T1"});
    CHECK(way.length_m == Approx(3.3));
    Names parts;
    for (const StretchItem& item : way.high) parts.push_back(small_chain().parts[item.part].id);
    CHECK(parts == Names{"W5", "X2", "W6", "BP1", "BP1", "BP1", "W7"});
    CHECK(way.high[1].from_m == Approx(1.5));
    CHECK(way.high[1].to_m == Approx(1.5));
    CHECK(way.low.size() == way.high.size());
    const double wire = 2.1 * copper_ohm_per_m(0.5) + 1.2 * copper_ohm_per_m(awg_section_mm2(20));
    CHECK(way.high.back().to_ohm == Approx(wire + 3 * 0.01 + 0.02));
    CHECK(stretch("T1:1/2", "M1:3/4", {"M1", "T1"}).high.front().to_m == Approx(0.6));
}

TEST_CASE("what hangs on a stretch is an obstacle, with what to unplug") {
    const Obstacle both = obstacle("M1:3/4", "T1:1/2", {});
    CHECK(both.kind == Kind::Connected);
    CHECK(names(both.unplug) == Names{"M1", "T1"});
    const Names hanging = names(both.parts);
    CHECK(std::count(hanging.begin(), hanging.end(), "T1") == 1);
    CHECK(std::count(hanging.begin(), hanging.end(), "M1") == 1);
    CHECK(std::count(hanging.begin(), hanging.end(), "GW") == 1);
    const Obstacle one = obstacle("M1:3/4", "T1:1/2", {"M1"});
    CHECK(one.kind == Kind::Connected);
    CHECK(names(one.parts) == Names{"T1"});
    CHECK(names(one.unplug) == Names{"T1"});
    // A module that passes the pair through lies on the way itself.
    const Obstacle through = obstacle("X1.b:4/5", "X2.a:1/2", {"X1", "X2"});
    CHECK(through.kind == Kind::Between);
    CHECK(names(through.parts) == Names{"M1"});
}

TEST_CASE("a stretch neither branches, nor goes on, nor is parted") {
    const Obstacle branch = obstacle("DS:6/14", "GW:1/2", {"GW", "X1"});
    CHECK(branch.kind == Kind::Branched);
    CHECK(names(branch.parts) == Names{"S1"});
    const Obstacle on = obstacle("X2.b:1/2", "T1:1/2", {"T1", "M1"});
    CHECK(on.kind == Kind::GoesOn);
    CHECK(names(on.unplug) == Names{"X2"});
    CHECK(obstacle("M1:3/4", "T1:1/2", {"M1", "T1", "X2"}).kind == Kind::NoWay);
    CHECK(obstacle("X2.a:1/2", "X2.b:1/2", {}).kind == Kind::NoWay);
    CHECK(obstacle("T1:1/2", "T1:1/2", {"T1"}).kind == Kind::NoWay);
}

TEST_CASE("runs without a length, and ends that are not on the vehicle, are obstacles") {
    Harness chain = small_chain();
    chain.parts[find_part(chain, "W6")].length_m = 0;
    const Apart unplugged = apart({"M1", "T1"});
    const auto from = find_point(chain, "M1:3/4"), to = find_point(chain, "T1:1/2");
    const auto found = find_stretch(chain, assembly_of(chain), unplugged, from, to);
    CHECK(std::get<Obstacle>(found).kind == Kind::NoLength);
    CHECK(names(std::get<Obstacle>(found).parts) == Names{"W6"});
    std::vector<char> present(chain.parts.size(), 1);
    present[find_part(chain, "W7")] = 0;
    present[find_part(chain, "T1")] = 0;
    const auto absent = find_stretch(chain, assemble(chain, 0, present), unplugged, from, to);
    CHECK(std::get<Obstacle>(absent).kind == Kind::NotThere);
}

// The short is closed in the circuit, its ohms are read from both ends by the solver, and the metres come
// back, sections and contacts included.
TEST_CASE("a short that the solver reads from both ends is located where it is") {
    const Harness& chain = small_chain();
    const Assembly assembly = assembly_of(chain);
    const Apart unplugged = apart({"M1", "T1"});
    const Stretch way = stretch("M1:3/4", "T1:1/2", {"M1", "T1"});
    const Solver solver(assembly.circuit);
    const auto node = [&](const char* name) {
        return assembly.node_of_terminal[halfsplit::harness::find_terminal(chain, name)];
    };
    const auto read = [&](const std::string& fault, double ohm, Tips tips) {
        auto all = taken_apart(assembly, chain, unplugged);
        for (const Change& change : changes(fault_named(chain, fault, ohm), assembly)) all.push_back(change);
        return solver.resistance(tips, all);
    };
    struct Case {
        const char* fault;
        double ohm, metres;
    };
    for (const Case& each : {Case{"X2:short", 0.3, 1.5}, Case{"X2:short", 20, 1.5}, Case{"W7:short", 20, 2.7},
                             Case{"W5:short", 0.3, 0}}) {
        INFO(each.fault);
        const double first = read(each.fault, each.ohm, {node("M1:3"), node("M1:4")});
        const double second = read(each.fault, each.ohm, {node("T1:1"), node("T1:2")});
        const Uncertain found = locate(way, DistanceMethod::Ohms, DistanceLines::Between, first, second);
        CHECK(found.value == Approx(each.metres).margin(0.002));
        CHECK(found.deviation > 0.3);
    }
    const double first = read("X2:ground-h", 0.3, {node("M1:3"), assembly.ground});
    const double second = read("X2:ground-h", 0.3, {node("T1:1"), assembly.ground});
    const Uncertain found = locate(way, DistanceMethod::Ohms, DistanceLines::High, first, second);
    CHECK(found.value == Approx(1.5).margin(0.002));
}

// Computed: the bridge is in balance when P : Q is the rest of the loop to the way to the fault.
TEST_CASE("a loop bridge counts ohms along the wires, capacitance counts metres") {
    const Stretch way = stretch("M1:3/4", "T1:1/2", {"M1", "T1"});
    const double to_fault = way.high[1].from_ohm, around = 2 * way.high.back().to_ohm;
    const Uncertain bridge =
        locate(way, DistanceMethod::Loop, DistanceLines::High, around - to_fault, to_fault);
    CHECK(bridge.value == Approx(1.5));
    CHECK_THROWS_AS(locate(way, DistanceMethod::Loop, DistanceLines::Between, 1, 1), ImpossibleDistance);
    CHECK(locate(way, DistanceMethod::Loop, DistanceLines::Low, 100, 0).deviation > 0);
    // 60 pF/m (Schneider 890 manual, p. 83: 60 nF/km): 0.7 m of 3.3 m.
    const Uncertain open =
        locate(way, DistanceMethod::Capacitance, DistanceLines::High, 0.7 * 60e-12, 2.6 * 60e-12);
    CHECK(open.value == Approx(0.7));
    CHECK(open.deviation < 0.2);
    CHECK_THROWS_AS(locate(way, DistanceMethod::Capacitance, DistanceLines::High, 0, 0), ImpossibleDistance);
}

TEST_CASE("two readings that hold less than the wire itself are refused") {
    const Stretch way = stretch("M1:3/4", "T1:1/2", {"M1", "T1"});
    DistanceTolerance fine;
    fine.ohm = 0.001;
    CHECK_THROWS_AS(locate(way, DistanceMethod::Ohms, DistanceLines::Between, 0.05, 0.05, fine),
                    ImpossibleDistance);
    CHECK_NOTHROW(locate(way, DistanceMethod::Ohms, DistanceLines::Between, 0.15, 0.15, fine));
}
