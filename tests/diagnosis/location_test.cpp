// Measured distances as evidence.
#include "halfsplit/diagnosis/belief.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace halfsplit::diagnosis;
using namespace halfsplit::test;
using halfsplit::electrics::DistanceLines;
using halfsplit::electrics::DistanceMethod;
using halfsplit::harness::find_part;
using halfsplit::harness::find_point;
using halfsplit::harness::Harness;

namespace {

constexpr double length = 3.3;  // M1:3/4 to T1:1/2: W5 1.5 m, X2, W6 1.2 m, BP1, W7 0.6 m

Situation both_ends_unplugged(const Harness& harness) {
    Situation situation{.apart = {find_part(harness, "M1"), find_part(harness, "T1")}};
    std::sort(situation.apart.begin(), situation.apart.end());
    return situation;
}

Located located(DistanceMethod method, DistanceLines lines, double metres, double deviation) {
    const Harness& chain = small_chain();
    return {1,         find_point(chain, "M1:3/4"), find_point(chain, "T1:1/2"), method, lines, metres,
            deviation, both_ends_unplugged(chain)};
}

// The chance of one figure under one or two faults, "" for a sound bus.
double chance(const Located& figure, const std::vector<std::string>& faults) {
    Predictor predictor(small_chain(), 0);
    const std::vector<Located> figures{figure};
    Explanation explanation;
    for (const std::string& name : faults) {
        const bool open = name.find("open") != std::string::npos ||
                          name.find("receded") != std::string::npos ||
                          name.find("apart") != std::string::npos;
        explanation.faults.push_back(fault_named(small_chain(), name, open ? 0 : 0.3));
    }
    const Locations locations(predictor, figures);
    double chance = 1;
    for (std::size_t i = 0; i < locations.size(); ++i) chance *= locations.chance(i, explanation);
    return chance;
}

double normal(double off, double deviation) {
    return std::exp(-off * off / (2 * deviation * deviation)) / (deviation * std::sqrt(2 * std::numbers::pi));
}

const double gross = gross_distance / length;
constexpr double rest = 1 - gross_distance;

double probability_of(const Belief& belief, const std::string& part) {
    return by_part(belief, small_chain())[find_part(small_chain(), part)];
}

}  // namespace

// By hand: a run fills its metres evenly, a contact is a point.
TEST_CASE("a figure is as likely as the fault's metres make it") {
    const Located open = located(DistanceMethod::Capacitance, DistanceLines::High, 0.7, 0.1);
    CHECK(chance(open, {"W5:open-h"}) == Approx(rest / 1.5 + gross));
    CHECK(chance(open, {"W5:open"}) == Approx(rest / 1.5 + gross));
    CHECK(chance(open, {"X2:receded-h@1"}) == Approx(rest * normal(0.8, 0.1) + gross));
    const Located joint = located(DistanceMethod::Capacitance, DistanceLines::High, 1.45, 0.1);
    CHECK(chance(joint, {"X2:receded-h@1"}) == Approx(rest * normal(0.05, 0.1) + gross));
    CHECK(chance(joint, {"X2:apart"}) == Approx(rest * normal(0.05, 0.1) + gross));
    const double inside = (std::erf(0.5 / std::sqrt(2.0)) + 1) / 2;  // half a deviation before the run's end
    CHECK(chance(joint, {"W5:open-h"}) == Approx(rest * inside / 1.5 + gross));
}

TEST_CASE("a kind of measurement speaks only of the faults that it can see") {
    const Located open = located(DistanceMethod::Capacitance, DistanceLines::High, 0.7, 0.1);
    const Located between = located(DistanceMethod::Capacitance, DistanceLines::Between, 0.7, 0.1);
    const Located ohms = located(DistanceMethod::Ohms, DistanceLines::Between, 1.5, 0.1);
    const Located ohms_h = located(DistanceMethod::Ohms, DistanceLines::High, 1.5, 0.1);
    const Located loop = located(DistanceMethod::Loop, DistanceLines::Low, 1.5, 0.1);
    const double at_x2 = rest * normal(0, 0.1) + gross;
    // A line that is whole reads alike from both ends: the figure is off the middle here.
    const double whole = rest * normal(length / 2 - 0.7, 0.1) + gross;
    CHECK(chance(open, {"W5:open-l"}) == Approx(whole));
    CHECK(chance(open, {}) == Approx(whole));
    CHECK(chance(open, {"W3:open-h"}) == Approx(whole));
    CHECK(chance(between, {"W5:open-l"}) == Approx(rest / 1.5 + gross));
    CHECK(chance(ohms, {"X2:short"}) == Approx(at_x2));
    CHECK(chance(ohms, {"X2:ground-h"}) == Approx(gross));
    CHECK(chance(ohms, {"W5:open-h"}) == Approx(gross));
    CHECK(chance(ohms, {"X1:short"}) == Approx(gross));
    CHECK(chance(ohms, {}) == Approx(gross));
    CHECK(chance(ohms_h, {"X2:ground-h"}) == Approx(at_x2));
    CHECK(chance(ohms_h, {"X2:ground-l"}) == Approx(gross));
    CHECK(chance(loop, {"X2:ground-l"}) == Approx(at_x2));
    CHECK(chance(loop, {"X2:supply-l"}) == Approx(at_x2));
    CHECK(chance(loop, {"X2:short"}) == Approx(gross));
}

TEST_CASE("a line that is whole says nothing for an open in its middle") {
    const Located middle = located(DistanceMethod::Capacitance, DistanceLines::High, length / 2, 0.1);
    CHECK(chance(middle, {}) >= chance(middle, {"W6:open-h"}));
}

TEST_CASE("two faults at once read as something between them", "[long]") {
    const Located between = located(DistanceMethod::Capacitance, DistanceLines::High, 2.1, 0.05);
    CHECK(chance(between, {"X2:receded-h@1", "BP1:receded-h@9"}) == Approx(rest / 1.2 + gross));
    CHECK(chance(between, {"X2:receded-h@1", "X1:receded-h@4"}) == chance(between, {"X2:receded-h@1"}));
}

TEST_CASE("an open in one long run, located by capacitance, takes the belief to that run") {
    const Harness& chain = small_chain();
    Predictor predictor(chain, 0);
    Evidence evidence;
    const Situation situation = both_ends_unplugged(chain);
    evidence.now.apart = situation.apart;
    evidence.measured.push_back({1,
                                 tips(chain, "M1:3", "T1:1"),
                                 {.shown = Shown::Ohm, .ohm = std::numeric_limits<double>::infinity()},
                                 situation});
    const Belief before = infer(predictor, evidence);
    CHECK(probability_of(before, "W5") < 0.1);
    CHECK(probability_of(before, "X2") > 0.2);
    evidence.located.push_back(located(DistanceMethod::Capacitance, DistanceLines::High, 0.7, 0.15));
    const Belief after = infer(predictor, evidence);
    CHECK(probability_of(after, "W5") > 0.3);
    CHECK(probability_of(after, "W5") > 5 * probability_of(before, "W5"));
    const auto parts = by_part(after, chain);
    CHECK(std::max_element(parts.begin(), parts.end()) - parts.begin() ==
          static_cast<std::ptrdiff_t>(find_part(chain, "W5")));
    evidence.located.push_back(evidence.located.front());
    CHECK(probability_of(infer(predictor, evidence), "W5") > 0.9);
}

TEST_CASE("on a variant that leaves no such stretch a distance is a gross error") {
    std::string text = read_file("tests/data/small_chain.json");
    const std::string absent = "\"fitted\": \"no\"";
    text.replace(text.find(absent), absent.size(), "\"fitted\": \"unknown\"");
    const Harness chain = harness_from_text(text);  // with the lift M2 is on the way, without it BP1
    Predictor predictor(chain, 0);
    REQUIRE(predictor.variants().size() == 2);
    const std::vector<Located> figures{located(DistanceMethod::Capacitance, DistanceLines::High, 0.7, 0.1)};
    const Locations locations(predictor, figures);
    const std::size_t with = predictor.variants()[0].present[find_part(chain, "M2")] != 0 ? 0 : 1;
    const auto chance_on = [&](std::size_t variant) {
        return locations.chance(0, {.variant = variant, .faults = {fault_named(chain, "W5:open-h")}});
    };
    CHECK(chance_on(with) == Approx(gross));
    CHECK(chance_on(1 - with) == Approx(rest / 1.5 + gross));
}

TEST_CASE("a distance that something was connected to does not count") {
    Predictor predictor(small_chain(), 0);
    Located figure = located(DistanceMethod::Capacitance, DistanceLines::High, 0.7, 0.1);
    CHECK(counts(figure, predictor));
    figure.situation.apart = {find_part(small_chain(), "M1")};
    CHECK_FALSE(counts(figure, predictor));
    CHECK(chance(figure, {"W5:open-h"}) == 1);
    Evidence evidence;
    evidence.located = {figure};
    CHECK(infer(predictor, evidence).probability == infer(predictor, {}).probability);
}
