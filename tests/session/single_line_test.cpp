// A single line - a lamp feed, a sensor wire - is hunted as a pair is.
#include "halfsplit/base/finding.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/electrics/conductor.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/session/rehearsal.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"
#include "support/random_single_line.hpp"

#include <algorithm>
#include <set>

using namespace halfsplit;
using namespace halfsplit::test;
using halfsplit::session::Rehearsal;

namespace {

harness::Harness lamp_feed() {
    return harness_from("tests/data/lamp_feed.json");
}

nlohmann::json lamp_feed_json() {
    return nlohmann::json::parse(read_file("tests/data/lamp_feed.json"));
}

std::vector<Finding> findings_of(const nlohmann::json& document) {
    return harness::read_harness(document.dump(), "lamp.json").findings;
}

double sound_ohm(const harness::Harness& harness, const std::string& red, const std::string& black) {
    diagnosis::Predictor predictor(harness, 0);
    return predictor.ohms({.variant = 0}, {}, {tips(harness, red, black)}).front();
}

}  // namespace

TEST_CASE("a single line has one terminal a point, named after it") {
    const harness::Harness harness = lamp_feed();
    std::set<std::string> names;
    for (harness::Index point = 0; point < harness.points.size(); ++point) {
        names.insert(point_name(harness, point));
        CHECK(terminals_of(harness.points[point]).size() == 1);
    }
    CHECK(names == std::set<std::string>{"FUSE:7", "LAMP_L:2", "LAMP_R:2", "X1.a:5", "X1.b:5", "S1:H"});
    CHECK(harness.networks[0].line_name[0] == "58R");
}

// Copper of 1 mm2: 1.724e-8 ohm m (International Annealed Copper Standard, 20 degrees), 4 m and 7 m; contact
// and crimp as assumed of every bus.
TEST_CASE("a single line reads the resistance of its copper and contacts") {
    const harness::Harness harness = lamp_feed();
    const electrics::Figures figures;
    const double metre = 0.01724;
    CHECK(sound_ohm(harness, "X1.a:5", "FUSE:7") == Approx(4 * metre).epsilon(0.01));
    CHECK(sound_ohm(harness, "S1:H", "FUSE:7") ==
          Approx(11 * metre + figures.contact + figures.crimp).epsilon(0.01));
}

TEST_CASE("a load to ground is what a lamp has with the battery off") {
    nlohmann::json document = lamp_feed_json();
    document["modules"][1]["buses"][0]["load_ohm"] = 0.7;
    const harness::Harness harness = harness_from_text(document.dump());
    const double at_the_lamp = sound_ohm(harness, "LAMP_L:2", "ground");
    CHECK(at_the_lamp > 0.7);
    CHECK(at_the_lamp < 0.75);
    document["networks"][0]["kind"] = "other";
    const auto findings = findings_of(document);
    CHECK(std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
        return finding.id == "bad-attachment" && finding.message == "a load to ground on a pair";
    }));
}

TEST_CASE("a second line is refused on a single line, and a missing one on a pair") {
    nlohmann::json document = lamp_feed_json();
    document["modules"][0]["buses"][0]["pins"]["l"] = "8";
    document["runs"][0]["l"] = document["runs"][0]["h"];
    const auto second = findings_of(document);
    REQUIRE(second.size() == 2);
    CHECK(second[0].id == "second-line");
    CHECK(second[1].id == "second-line");

    document = lamp_feed_json();
    document["networks"][0]["kind"] = "other";
    const auto missing = findings_of(document);
    CHECK(std::count_if(missing.begin(), missing.end(), [](const Finding& finding) {
              return finding.id == "missing-member" && finding.message == "the member \"l\" is missing";
          }) == 3);
}

TEST_CASE("what works says where a single line is open: it is fed from where its clip starts") {
    const harness::Harness harness = lamp_feed();
    Rehearsal rehearsal(harness, 0);
    for (const auto& truth : rehearsal.faults()) {
        const auto played = rehearsal.play(truth, {.to_the_end = true});
        INFO(truth.name);
        CHECK(played.found);
        // One lamp of two: the other way is not suspected.
        if (truth.name == "W3:open") CHECK(played.looks <= 3);
    }
}

TEST_CASE("on random single lines the hunt ends at the faulty part", "[long]") {
    std::size_t hunts = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const harness::Harness harness = harness_from_text(random_single_line_json(seed));
        Rehearsal rehearsal(harness, 0);
        const auto faults = rehearsal.faults();
        for (std::size_t i = seed % 5; i < faults.size(); i += 12, ++hunts) {
            INFO("seed " << seed << ", fault " << faults[i].name);
            REQUIRE(rehearsal.play(faults[i], {.to_the_end = false}).found);
        }
    }
    CHECK(hunts > 80);
}
