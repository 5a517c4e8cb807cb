// What a voltmeter would show against ground on a real harness file, battery on.
#include "halfsplit/diagnosis/predictor.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"

#include <cmath>

using halfsplit::diagnosis::Explanation;
using halfsplit::diagnosis::Predictor;
using halfsplit::diagnosis::Situation;
using namespace halfsplit::test;

namespace {

enum class Bus { Asleep, Awake };

struct Bench {
    halfsplit::harness::Harness harness = small_chain();
    Predictor predictor{harness, 0};

    std::optional<double> volt(const std::string& at, Bus bus, const std::vector<std::string>& faults = {},
                               const std::vector<std::string>& apart = {}) {
        Explanation explanation;
        for (const std::string& name : faults) explanation.faults.push_back(fault_named(harness, name));
        Situation situation;
        for (const std::string& part : apart) situation.apart.push_back(find_part(harness, part));
        return predictor.volts(explanation, situation, {contact(harness, at)}, bus == Bus::Awake).front();
    }
};

}  // namespace

TEST_CASE("a sound bus stands at 2.5 V awake and at 0 V asleep") {
    Bench bench;
    // ISO 11898-2: recessive 2.0 to 3.0 V, nominal 2.5 V; without bias -0.1 to 0.1 V.
    for (const char* at : {"DS:6", "DS:14", "X1.b:4", "M2:9", "T1:1", "T1:2"}) {
        INFO(at);
        REQUIRE(bench.volt(at, Bus::Awake).value() == Approx(2.5));
        REQUIRE(bench.volt(at, Bus::Asleep).value() == Approx(0).margin(1e-9));
    }
    REQUIRE(bench.volt("ground", Bus::Awake) == 0);
    REQUIRE(bench.volt("supply", Bus::Asleep) == 12.6);  // common practice, no source
}

TEST_CASE("a short to ground pulls both lines down, through the terminators") {
    Bench bench;
    // Both near 0 V everywhere: arithmetic (60 ohm between the lines against 25 kohm to the bias).
    for (const char* at : {"DS:6", "DS:14", "T1:1", "T1:2"})
        REQUIRE(bench.volt(at, Bus::Awake, {"W4:ground-h"}).value() < 0.05);
    REQUIRE(bench.volt("DS:6", Bus::Awake, {"W4:ground-h"}).value() > 0);
}

TEST_CASE("a short to supply pulls both lines up, awake or asleep") {
    Bench bench;
    for (const char* at : {"DS:6", "DS:14", "T1:1", "T1:2"}) {
        REQUIRE(bench.volt(at, Bus::Awake, {"W4:supply-l"}).value() == Approx(12.6).margin(0.2));
        REQUIRE(bench.volt(at, Bus::Asleep, {"W4:supply-l"}).value() == Approx(12.6).margin(0.2));
    }
}

TEST_CASE("idle volts see neither an open nor a short between the lines") {
    Bench bench;
    for (const char* fault : {"W4:open-h", "W4:open", "W4:short", "T1:missing"}) {
        for (const char* at : {"DS:6", "DS:14", "T1:1", "T1:2"}) {
            INFO(fault << " at " << at);
            REQUIRE(bench.volt(at, Bus::Awake, {fault}).value() == Approx(2.5));
        }
    }
}

TEST_CASE("a short to ground beyond an open in both lines leaves this side at its bias") {
    Bench bench;
    REQUIRE(bench.volt("DS:6", Bus::Awake, {"W4:open", "T1:ground-h"}).value() == Approx(2.5));
    REQUIRE(bench.volt("T1:1", Bus::Awake, {"W4:open", "T1:ground-h"}).value() < 0.05);
}

TEST_CASE("a line that no transceiver reaches floats") {
    Bench bench;
    // With M1 unplugged nothing but the terminator is left beyond it.
    const auto beyond = bench.volt("T1:1", Bus::Awake, {}, {"M1"});
    REQUIRE(beyond.has_value());
    REQUIRE(std::isnan(*beyond));
    REQUIRE(bench.volt("DS:6", Bus::Awake, {}, {"M1"}).value() == Approx(2.5));
}

TEST_CASE("a contact that is not on this vehicle has no volts") {
    auto harness = small_chain();
    harness.options.front().fitted = halfsplit::harness::Fitted::Yes;
    const auto volts = Predictor(harness, 0).volts({}, {}, {contact(harness, "X1.b:7")}, true);
    REQUIRE(volts.size() == 1);
    REQUIRE_FALSE(volts.front().has_value());
}
