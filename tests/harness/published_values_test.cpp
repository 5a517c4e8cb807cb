// Every figure of the model that has a published source, against that source. Distances along a run have
// theirs in electrics/distance_test.cpp and stretch_test.cpp, ohms of a whole bus in
// electrics/meter_cases_test.cpp.
#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/diagnosis/volts.hpp"
#include "halfsplit/electrics/assembly.hpp"
#include "halfsplit/electrics/conductor.hpp"
#include "halfsplit/harness/harness.hpp"

#include "harness/bus_rules.hpp"
#include "harness/colours.hpp"
#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

using namespace halfsplit;
using harness::Network;

namespace {

struct Limits {
    double least = 0, nominal = 0, most = 0;
};

// ISO 11898, as quoted in a manual of National Instruments (sbRIO-960x, p. 40, tables 9 and 10).
constexpr Limits termination{100, 120, 130};
// ISO 11898, as compared in the data sheet of Microchip's MCP2551; Texas Instruments SN65LBC031, SLRS048A,
// p. 6.
constexpr Limits differential_ohm{10e3, 0, 100e3}, input_ohm{5e3, 0, 50e3};
// Electrical characteristics of Texas Instruments TCAN1146-Q1 (SLLSF80B) and TCAN1043A-Q1 (SLLSFD1E), and
// Microchip MCP2551. The nominal dominant levels are from memory.
constexpr Limits recessive{2.0, 2.5, 3.0}, unbiased{-0.1, 0, 0.1}, dominant_high{2.75, 3.5, 4.5},
    dominant_low{0.5, 1.5, 2.25}, dominant_difference{1.5, 2.0, 3.0};
// The same data sheets: normal load of a bus.
constexpr Limits bus_load{50, 60, 65};

bool within(double value, const Limits& limits) {
    return limits.least <= value && value <= limits.most;
}

// One standard deviation of something that is anywhere between the limits.
double even(double least, double most) {
    return (most - least) / std::sqrt(12.0);
}

// Ohms from H to L at one end of the test chain, with terminators of so many ohms.
double ends_of_chain(double terminator_ohm) {
    auto bus = test::harness_from("tests/data/networks/chain.json");
    for (harness::Part& part : bus.parts) {
        if (part.kind == harness::PartKind::Terminator) part.ohm = terminator_ohm;
    }
    return diagnosis::Predictor(bus, 0).ohms({}, {}, {test::tips(bus, "T1:1", "T1:2")}).front();
}

Network network(const std::string& kind, double bit_rate) {
    Network result;
    result.kind = kind;
    result.bit_rate = bit_rate;
    return result;
}

}  // namespace

TEST_CASE("terminators are nominal, and stray as far as the standard lets them") {
    CHECK(Network{}.terminator_ohm == termination.nominal);
    CHECK(harness::Attachment{}.terminator_ohm == termination.nominal);
    CHECK(test::harness_from("tests/data/networks/one_end.json").networks.front().terminator_ohm ==
          termination.nominal);
    CHECK(diagnosis::terminator_spread ==
          Approx(even(termination.least, termination.most) / termination.nominal).epsilon(0.005));
}

TEST_CASE("a bus with two terminators within the standard reads a load within the standard") {
    // Wires, contacts and one module's transceiver take or add less than half an ohm (arithmetic).
    CHECK(ends_of_chain(termination.least) == Approx(bus_load.least).margin(0.5));
    CHECK(ends_of_chain(termination.nominal) == Approx(bus_load.nominal).margin(0.5));
    CHECK(ends_of_chain(termination.most) == Approx(bus_load.most).margin(0.5));
}

TEST_CASE("transceivers without power lie within the standard, and stray over its two ends") {
    const electrics::Figures figures;
    CHECK(within(figures.line_to_line, differential_ohm));
    CHECK(within(figures.line_to_ground, input_ohm));
    // Nothing but a transceiver left from H to L: even over the logarithm.
    const auto bus = test::harness_from("tests/data/networks/one_end.json");
    diagnosis::Predictor predictor(bus, 0);
    const auto alone =
        predictor.figures({}, {.apart = {find_part(bus, "T1")}}, {test::tips(bus, "M1:1", "M1:2")}).front();
    CHECK(alone.ohm > differential_ohm.least);
    CHECK(alone.spread / alone.ohm ==
          Approx(even(std::log(differential_ohm.least), std::log(differential_ohm.most))).epsilon(0.01));
    // Thirty modules (SAE J1939-11) of the least and of the most that is allowed.
    CHECK(diagnosis::kilohms_from > differential_ohm.least / 30);
    CHECK(diagnosis::kilohms_from < differential_ohm.most / 30);
}

TEST_CASE("the levels of a bus are the nominal ones") {
    const electrics::Figures figures;
    CHECK(figures.awake_volt == recessive.nominal);
    CHECK(figures.asleep_volt == unbiased.nominal);
    CHECK(diagnosis::dominant_high_volt == dominant_high.nominal);
    CHECK(diagnosis::dominant_low_volt == dominant_low.nominal);
    CHECK(diagnosis::dominant_high_volt - diagnosis::dominant_low_volt == dominant_difference.nominal);
}

TEST_CASE("honest volts reach over what the standard allows of a bus at rest") {
    const auto chance = [](double volt, double at_rest, bool awake) {
        const diagnosis::PredictedVolts predicted{{at_rest, {}}, {0.0, {}}};
        return diagnosis::likelihood({.volt = volt, .awake = awake}, predicted, {}).honest;
    };
    // Two standard deviations off: 0.135 of the height of the bell (arithmetic).
    for (const double edge : {recessive.least, recessive.most})
        CHECK(chance(edge, recessive.nominal, false) / chance(2.5, recessive.nominal, false) > 0.1);
    for (const double edge : {unbiased.least, unbiased.most})
        CHECK(chance(edge, 0, false) / chance(0, 0, false) == Approx(std::exp(-2)).epsilon(0.02));
}

TEST_CASE("a mated contact stays below the limit of its standard") {
    // MIL-DTL-26482, contact size 20: 30 mohm (lectromec.com).
    CHECK(electrics::Figures{}.contact <= 0.030);
    CHECK(electrics::Figures{}.contact >= 0.001);
}

TEST_CASE("copper and its gauges are those of the standards") {
    // NBS Handbook 100 (IEC 60028:1925): 0.017241 ohm mm2/m; Industrial Power Engineering and Applications
    // Handbook, p. 970: 0.00393 per K.
    CHECK(electrics::copper_ohm_per_m(1) == Approx(0.017241).epsilon(1e-12));
    CHECK(electrics::copper_ohm_per_m(1, 21) / electrics::copper_ohm_per_m(1) ==
          Approx(1.00393).epsilon(1e-9));
    // ASTM B258-02: 0.127 mm at gauge 36; each step 92^(1/39) = 1.1229322 in diameter.
    const double pi = std::acos(-1.0);
    CHECK(std::sqrt(4 * electrics::awg_section_mm2(36) / pi) == Approx(0.127).epsilon(1e-9));
    CHECK(std::sqrt(electrics::awg_section_mm2(20) / electrics::awg_section_mm2(21)) ==
          Approx(1.1229322).epsilon(1e-7));
    // Floyd's table (hyperphysics.phy-astr.gsu.edu), ohm per 1000 ft.
    for (const auto& [gauge, ohm] :
         std::map<double, double>{{18, 6.385}, {20, 10.15}, {22, 16.14}, {24, 25.67}})
        CHECK(304.8 * electrics::copper_ohm_per_m(electrics::awg_section_mm2(gauge)) ==
              Approx(ohm).epsilon(5e-4));
}

TEST_CASE("wires are sections of ideal copper, a little below the most that class 5 may have") {
    // IEC 60228 class 5, plain copper, mohm/m at 20 degC (mycableengineering.com; the same at
    // etechnik-synergie.com for DIN VDE 0295).
    for (const auto& [section, most] : std::map<double, double>{
             {0.5, 39.0}, {0.75, 26.0}, {1, 19.5}, {1.5, 13.3}, {2.5, 7.98}, {4, 4.95}, {6, 3.3}}) {
        INFO(section << " mm2");
        CHECK(1000 * electrics::copper_ohm_per_m(section) < most);
        CHECK(1000 * electrics::copper_ohm_per_m(section) > 0.85 * most);
    }
    // IEC 60228, temperature factor Kt (uecables.com): R20 = Rt * Kt.
    for (const auto& [celsius, factor] :
         std::map<double, double>{{5, 1.064}, {10, 1.042}, {30, 0.962}, {40, 0.926}, {60, 0.862}}) {
        INFO(celsius << " degC");
        CHECK(electrics::copper_ohm_per_m(1) / electrics::copper_ohm_per_m(1, celsius) ==
              Approx(factor).epsilon(4e-3));
    }
}

TEST_CASE("stubs are judged by bit rate as published") {
    // MOTORTECH MIC5 manual, p. 50 (the same as CiA 303-1, from memory).
    for (const auto& [bit_rate, metres] :
         std::map<double, double>{{800e3, 2.5}, {500e3, 5.5}, {250e3, 11}, {125e3, 22}, {50e3, 55}}) {
        INFO(bit_rate << " bit/s");
        CHECK(harness::longest_stub(network("iso11898-2", bit_rate)).most == metres);
    }
    // ISO 11898-2 at 1 Mbit/s: stub 0.3 m, bus 40 m (Texas Instruments SLLSEC4B, SLLS804D).
    CHECK(harness::longest_stub(network("iso11898-2", 1e6)).most == 0.3);
    CHECK(harness::longest_bus(network("iso11898-2", 1e6)).most == 40);
    // MOTORTECH EasyNOx manual, "CAN bus wiring": length of the wire, and of all stubs together.
    for (const auto& [bit_rate, metres] : std::map<double, std::pair<double, double>>{{800e3, {50, 12.5}},
                                                                                      {500e3, {100, 27.5}},
                                                                                      {250e3, {250, 55}},
                                                                                      {125e3, {500, 110}},
                                                                                      {50e3, {1000, 275}}}) {
        INFO(bit_rate << " bit/s");
        CHECK(harness::longest_bus(network("iso11898-2", bit_rate)).most == metres.first);
        CHECK(harness::all_stubs(network("iso11898-2", bit_rate)).most == metres.second);
    }
    CHECK(harness::all_stubs(network("iso11898-2", 1e6)).most == 7.5);
}

TEST_CASE("a J1939 bus has the limits of its document") {
    // J1939-11: 30 nodes (1999, clause 3.1), 40 m and stubs of 1 m (2016, a published summary, tnlab.org).
    const Network shielded = network("j1939-11", 250e3);
    CHECK(harness::most_nodes(shielded).most == 30);
    CHECK(harness::longest_bus(shielded).most == 40);
    CHECK(harness::longest_stub(shielded).most == 1);
    // J1939-15: stubs of 3 m (from memory); its limit of 10 nodes was taken out in May 2014
    // (saemobilus.sae.org, J1939/15_201405, rationale).
    CHECK(harness::longest_stub(network("j1939-15", 250e3)).most == 3);
    CHECK(harness::most_nodes(network("j1939-15", 250e3)).most == 0);
    CHECK(harness::most_nodes(network("iso11898-2", 500e3)).most == 0);
}

TEST_CASE("colour codes are those of the standard, in the order of its table") {
    // IEC 757:1983 as GOST 28763-90 has it (profsector.com, studopedia.ru).
    CHECK(harness::colour_codes() == std::vector<std::string>{"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT",
                                                              "GY", "WH", "PK", "GD", "TQ", "SR", "GNYE"});
    for (const std::string& code : harness::colour_codes()) CHECK(harness::colour_code(code) == code);
    CHECK(harness::colour_code("gnye") == "GNYE");  // lower case is allowed
    CHECK(harness::colour_code("RDBU").empty());    // base and stripe are two fields
}

TEST_CASE("what drawings say instead of the codes is understood as what it stands for") {
    // DIN 47002.
    for (const auto& [own, code] : std::map<std::string, std::string>{{"sw", "BK"},
                                                                      {"br", "BN"},
                                                                      {"rt", "RD"},
                                                                      {"or", "OG"},
                                                                      {"ge", "YE"},
                                                                      {"gn", "GN"},
                                                                      {"bl", "BU"},
                                                                      {"vi", "VT"},
                                                                      {"gr", "GY"},
                                                                      {"ws", "WH"},
                                                                      {"rs", "PK"},
                                                                      {"tk", "TQ"}}) {
        INFO(own);
        CHECK(harness::likely_colour_code(own) == code);
    }
    // Use of the trade (from memory).
    for (const auto& [own, code] : std::map<std::string, std::string>{{"BLK", "BK"},
                                                                      {"BRN", "BN"},
                                                                      {"RED", "RD"},
                                                                      {"ORN", "OG"},
                                                                      {"YEL", "YE"},
                                                                      {"GRN", "GN"},
                                                                      {"BLU", "BU"},
                                                                      {"VIO", "VT"},
                                                                      {"PPL", "VT"},
                                                                      {"GRY", "GY"},
                                                                      {"WHT", "WH"},
                                                                      {"PNK", "PK"}}) {
        INFO(own);
        CHECK(harness::likely_colour_code(own) == code);
        CHECK(harness::colour_code(own).empty());
    }
}

TEST_CASE(
    "a buzzer is taken to sound somewhere between the lowest and the highest threshold of the manuals") {
    // Mastercraft 052-0055-6 p. 16: 20; APPA 97II p. 20: 30; Mastech MS8221C p. 30: 50; Tandy 220-0179: 50 +-
    // 30; Finest 716 and Surtek 111005: 70; PeakTech 3730 p. 31: 120 ohm.
    const std::vector<double> thresholds{20, 30, 50, 50 - 30, 50 + 30, 70, 120};
    const harness::Assumptions assumed;
    CHECK(assumed.buzzer_low_ohm == *std::min_element(thresholds.begin(), thresholds.end()));
    CHECK(assumed.buzzer_high_ohm == *std::max_element(thresholds.begin(), thresholds.end()));
    // A sound bus of 60 ohm beeps on some of them.
    const double beeps = diagnosis::likelihood({.shown = diagnosis::Shown::Closed}, {60}, assumed).honest;
    CHECK(beeps > 1.0 / 7);
    CHECK(beeps < 4.0 / 7);
}
