#include "halfsplit/advice/expectation.hpp"

#include "halfsplit/advice/tip_names.hpp"
#include "halfsplit/base/finding.hpp"

#include "advice/readout.hpp"
#include "support/catch.hpp"
#include "support/circuit_simulator.hpp"
#include "support/harnesses.hpp"

#include <cmath>
#include <set>

using namespace halfsplit;
using advice::expect;
using advice::expect_faults;
using advice::expect_netlist;
using advice::expect_table;
using advice::ExpectedOutcome;

namespace {

diagnosis::Tips tips_of(const std::vector<std::string>& names) {
    const harness::Harness& harness = test::small_chain();
    return advice::tips_named(harness, 0, harness.networks[0].clip, names);
}

std::string refusal(const std::vector<std::string>& names) {
    try {
        tips_of(names);
    } catch (const InputError& error) {
        return error.what();
    }
    return "";
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

const ExpectedOutcome& outcome_of(const advice::Expectation& expectation, const std::string& fault) {
    for (const ExpectedOutcome& outcome : expectation.outcomes) {
        for (const advice::ExpectedFault& one : outcome.faults) {
            if (one.fault == fault) return outcome;
        }
    }
    throw std::runtime_error("no outcome with " + fault);
}

}  // namespace

TEST_CASE("H to L at the clip reads 60 sound and 120 for every open, wherever it is") {
    diagnosis::Predictor predictor(test::small_chain(), 0);
    const auto belief = infer(predictor, {});
    const auto expected = expect(predictor, belief, tips_of({"DS:6/14"}), {});
    // Two terminators of 120 ohm, a few metres of wire, transceivers of 40 kohm: arithmetic.
    CHECK(expected.sound.low == Approx(60).margin(0.5));
    const ExpectedOutcome& opens = outcome_of(expected, "W4:open-h");
    // A joint of 1000 ohm is not told from an open: 120 || 1120 = 108 ohm (arithmetic).
    CHECK(opens.range.low == Approx(108).margin(1));
    CHECK(opens.range.high < 125);
    CHECK_FALSE(opens.sound);
    CHECK(&opens == &outcome_of(expected, "T1:missing"));
    CHECK(&opens == &outcome_of(expected, "X2:apart"));
    // Behind the splice to the socket alone, the bus itself is whole, and the socket sees nothing.
    CHECK(std::isinf(outcome_of(expected, "W1:open-h").range.low));
}

TEST_CASE("the outcomes of a reading share out all that is believed, and a sound bus is in one of them") {
    diagnosis::Predictor predictor(test::small_chain(), 0);
    const auto belief = infer(predictor, {});
    for (const auto& names : std::vector<std::vector<std::string>>{
             {"X1.b:4", "clip"}, {"M1:1/2"}, {"X2.a:1", "ground"}, {"DS:6", "supply"}}) {
        const auto expected = expect(predictor, belief, tips_of(names), {});
        double chance = 0;
        std::size_t sound = 0;
        for (const ExpectedOutcome& outcome : expected.outcomes) {
            chance += outcome.chance;
            sound += outcome.sound ? 1 : 0;
            double of_faults = outcome.nothing_wrong;
            for (const advice::ExpectedFault& fault : outcome.faults) of_faults += fault.probability;
            CHECK(of_faults == Approx(outcome.chance));
        }
        CHECK(chance == Approx(1));
        CHECK(sound == 1);
    }
}

TEST_CASE("an open line between two points reads the way round through both terminators") {
    diagnosis::Predictor predictor(test::small_chain(), 0);
    const auto fault = test::fault_named(test::small_chain(), "X1:receded-h@4");
    const auto expected = expect_faults(predictor, 0, {fault}, tips_of({"X1.b:4", "clip"}), {});
    REQUIRE(expected.readings.size() == 1);
    CHECK(expected.readings[0].told);
    CHECK(expected.readings[0].fault_ohm == 0);
    // 120 + 120 ohm (arithmetic), less a little through the transceivers' 40 and 25 kohm.
    CHECK(expected.readings[0].shows == Approx(240).margin(5));
    CHECK(expected.sound < 0.2);
    // With the terminator off there is no way round but the transceivers.
    const auto& harness = test::small_chain();
    const auto apart =
        expect_faults(predictor, 0, {fault}, tips_of({"X1.b:4", "clip"}), {find_part(harness, "T1")});
    CHECK(apart.apart == std::vector<std::string>{"T1"});
    CHECK(apart.readings[0].shows > 2000);
}

TEST_CASE("a bad joint is told for every figure of ohms that is tried") {
    diagnosis::Predictor predictor(test::small_chain(), 0);
    const auto fault = test::fault_named(test::small_chain(), "X1:joint-h@4");
    const auto expected = expect_faults(predictor, 0, {fault}, tips_of({"X1.b:4", "clip"}), {});
    REQUIRE(expected.readings.size() == 5);
    for (const advice::FaultReading& reading : expected.readings) {
        // In parallel with 240 ohm the other way round (arithmetic).
        CHECK(reading.shows == Approx(reading.fault_ohm * 240 / (reading.fault_ohm + 240)).epsilon(0.03));
        CHECK(reading.told);
    }
    // The same at the clip, H to L: 60 ohm of added resistance passes for a sound bus.
    const auto across = expect_faults(predictor, 0, {fault}, tips_of({"DS:6/14"}), {});
    CHECK_FALSE(across.readings[0].told);
    CHECK_FALSE(across.readings[1].told);
}

TEST_CASE("the table holds every point, and stars what differs from a sound bus") {
    diagnosis::Predictor predictor(test::small_chain(), 0);
    const auto& harness = test::small_chain();
    const auto fault = test::fault_named(harness, "X1:receded-h@4");
    const auto table = expect_table(predictor, 0, {fault}, harness.networks[0].clip, {});
    CHECK(table.rows.size() == harness.points.size());
    for (const advice::PointRow& row : table.rows) {
        const bool beyond = row.point.rfind("X1.b", 0) == 0 || row.point[0] == 'M' || row.point[0] == 'T' ||
                            row.point.rfind("X2", 0) == 0;
        INFO(row.point);
        CHECK(row.h_told == beyond);
        CHECK_FALSE(row.l_told);
        CHECK(row.across_told);
        CHECK(row.h_to_l == Approx(120).margin(3));
    }
}

TEST_CASE("the netlist of a reading gives another program the same figures", "[posix]") {
    diagnosis::Predictor predictor(test::small_chain(), 0);
    const auto& harness = test::small_chain();
    const auto fault = test::fault_named(harness, "W5:joint-l");
    for (const auto& names :
         std::vector<std::vector<std::string>>{{"X2.b:2", "clip"}, {"M1:3/4"}, {"X1.a:5", "ground"}}) {
        const electrics::Apart apart{find_part(harness, "GW")};
        const auto figures = test::simulate(expect_netlist(predictor, 0, {fault}, tips_of(names), apart));
        const auto expected = expect_faults(predictor, 0, {fault}, tips_of(names), apart);
        REQUIRE(figures.size() == 1 + expected.readings.size());
        CHECK(figures.at("ohm_1") == Approx(expected.sound).epsilon(1e-6));
        for (std::size_t i = 0; i < expected.readings.size(); ++i) {
            CHECK(figures.at("ohm_" + std::to_string(i + 2)) ==
                  Approx(expected.readings[i].shows).epsilon(1e-6));
        }
    }
}

TEST_CASE("tips are taken by name, without regard to case, and the clip meets the line of the other tip") {
    const auto& harness = test::small_chain();
    CHECK(tips_of({"x1.B:5", "CLIP"}) == test::tips(harness, "X1.b:5", "DS:14"));
    CHECK(tips_of({"clip", "X1.b:4"}) == test::tips(harness, "DS:6", "X1.b:4"));
    CHECK(tips_of({"clip"}) == test::tips(harness, "DS:6", "DS:14"));
    CHECK(tips_of({"X1.a:4/5"}) == test::tips(harness, "X1.a:4", "X1.a:5"));
    CHECK(tips_of({"Ground", "X1.a:4"}) == test::tips(harness, "ground", "X1.a:4"));
}

TEST_CASE("a tip that cannot be is refused with the nearest name and what to do") {
    const std::string unknown = refusal({"X1.a:44", "clip"});
    CHECK(holds(unknown, "[unknown-terminal]"));
    CHECK(holds(unknown, "Nearest known name: \"X1.a:4\""));
    // X1.b:7 is there, of another circuit.
    CHECK(holds(refusal({"X1.b:8", "clip"}), "Nearest known name: \"X1.b:4\""));
    CHECK(holds(refusal({"X1.a:4/6"}), "Nearest known name: \"X1.a:4/5\""));
    CHECK(holds(refusal({"X1.a:4"}), "--between X1.a:4 clip"));
    CHECK(holds(refusal({"X1.b:7", "clip"}), "[not-on-the-bus]"));
    diagnosis::Predictor predictor(test::small_chain(), 0);
    const auto apart = [&](const std::string& name) {
        try {
            advice::parts_apart(test::small_chain(), predictor, {name});
        } catch (const InputError& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    CHECK(holds(apart("X11"), "Nearest known name: \"X1\""));
    CHECK(holds(apart("W4"), "[cannot-come-apart]"));
    CHECK(holds(apart("M2"), "[not-on-the-bus]"));
    CHECK(apart("t1").empty());
}

TEST_CASE("in volts a short to supply is told from a sound bus, and an open is not") {
    diagnosis::Predictor predictor(test::small_chain(), 0);
    const auto belief = infer(predictor, {});
    const auto awake = electrics::Power::Awake;
    const auto expected = expect(predictor, belief, tips_of({"DS:6", "ground"}), {}, awake);
    CHECK(expected.sound.low == Approx(2.5));
    CHECK(outcome_of(expected, "W4:supply-l").range.low == Approx(12.4).margin(0.2));
    CHECK(outcome_of(expected, "W4:ground-h").shows == "about 0 V");
    CHECK(&outcome_of(expected, "W4:open-h") == &outcome_of(expected, "W4:short"));
    CHECK(outcome_of(expected, "W4:open-h").sound);
    const auto supply = test::fault_named(test::small_chain(), "W4:supply-l");
    const auto asleep =
        expect_faults(predictor, 0, {supply}, tips_of({"DS:6", "ground"}), {}, electrics::Power::Asleep);
    CHECK(asleep.sound == Approx(0).margin(1e-9));
    CHECK(asleep.readings.front().told);
}

TEST_CASE("traffic is foretold for one line against ground, not for one line against the other") {
    diagnosis::Predictor predictor(test::small_chain(), 0);
    const advice::Readout awake(predictor, electrics::Power::Awake);
    advice::OutcomeClass outcome;
    outcome.low_volt = 2.4;
    outcome.high_volt = 2.5;
    CHECK(holds(awake.in_words(outcome, tips_of({"DS:6", "ground"})), "about 2.5 V, with traffic up to"));
    CHECK(holds(awake.in_words(outcome, tips_of({"DS:14", "ground"})), "about 2.5 V, with traffic down to"));
    CHECK(awake.in_words(outcome, tips_of({"DS:6/14"})) == "about 2.5 V");
}

TEST_CASE("a table in volts has each line against ground, and what floats beyond an unplugged module") {
    diagnosis::Predictor predictor(test::small_chain(), 0);
    const electrics::Apart apart{find_part(test::small_chain(), "M1")};
    const auto table =
        expect_table(predictor, 0, {}, test::small_chain().networks[0].clip, apart, electrics::Power::Awake);
    for (const auto& row : table.rows) {
        INFO(row.point);
        if (row.point == "DS:6/14") CHECK(row.h == Approx(2.5));
        if (row.point == "T1:1/2") CHECK(std::isinf(row.l));
        CHECK_FALSE(row.h_told);
    }
}

TEST_CASE("the netlist in volts says in a circuit simulator what expect says", "[posix]") {
    const harness::Harness& harness = test::small_chain();
    diagnosis::Predictor predictor(harness, 0);
    const auto tips = tips_of({"X1.b:4", "DS:14"});
    for (const char* name : {"W4:supply-l", "X1:ground-h", "W4:open-h"}) {
        INFO(name);
        const auto fault = test::fault_named(harness, name);
        for (const auto power : {electrics::Power::Awake, electrics::Power::Asleep}) {
            const auto figures = test::simulate(expect_netlist(predictor, 0, {fault}, tips, {}, power));
            const auto expected = expect_faults(predictor, 0, {fault}, tips, {}, power);
            const auto simulated = [&](std::size_t figure) {
                const std::string name_of_figure = "volt_" + std::to_string(figure + 1);
                return figures.at(name_of_figure + "_1") - figures.at(name_of_figure + "_2");
            };
            REQUIRE(figures.size() == 2 * (1 + expected.readings.size()));
            CHECK(simulated(0) == Approx(expected.sound).epsilon(1e-6).margin(1e-6));
            for (std::size_t i = 0; i < expected.readings.size(); ++i)
                CHECK(simulated(i + 1) == Approx(expected.readings[i].shows).epsilon(1e-6).margin(1e-6));
        }
    }
}
