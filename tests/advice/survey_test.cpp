#include "halfsplit/advice/survey.hpp"

#include "halfsplit/diagnosis/meter.hpp"

#include <fmt/format.h>

#include "advice/extra_test.hpp"
#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/random_harness.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

using namespace halfsplit;
using advice::AmbiguityGroup;
using advice::Survey;
using harness::Index;
using Names = std::set<std::string>;

namespace {

Names set_of(const std::vector<std::string>& names) {
    return {names.begin(), names.end()};
}

const AmbiguityGroup& group_with(const Survey& survey, const std::string& fault) {
    for (const AmbiguityGroup& group : survey.groups) {
        if (std::count(group.faults.begin(), group.faults.end(), fault) > 0) return group;
    }
    throw std::runtime_error("no group with " + fault);
}

// Outcomes by a second way: sort, and begin anew where two neighbours can be told apart.
std::vector<int> outcomes_again(const std::vector<double>& predicted) {
    std::vector<double> sorted;
    for (const double ohm : predicted) {
        if (!std::isnan(ohm)) sorted.push_back(ohm);
    }
    std::sort(sorted.begin(), sorted.end());
    std::vector<double> starts;
    for (std::size_t i = 0; i < sorted.size(); ++i) {
        if (i == 0 || diagnosis::distinguishable(sorted[i - 1], sorted[i])) starts.push_back(sorted[i]);
    }
    std::vector<int> result;
    for (const double ohm : predicted) {
        result.push_back(std::isnan(ohm)
                             ? -1
                             : static_cast<int>(std::count_if(starts.begin(), starts.end(),
                                                              [&](double start) { return start <= ohm; })));
    }
    return result;
}

}  // namespace

// Every value below is counted by hand from the drawing in tests/data/small_chain.json:
//     DS:6/14 -W1- S1 -W3- X1 -W4- M1 -W5- X2 -W6- BP1 -W7- T1, and -W2- GW off S1.
// Probe points: DS, GW, X1.a, X1.b, M1 in and out, X2.a, X2.b, M2 in and out (where BP1 sits), T1, S1.
TEST_CASE("the ambiguity groups of the small chain are those found by hand") {
    const Survey survey = advice::survey(test::small_chain(), 0);
    CHECK(survey.points == 12);
    CHECK(survey.parts == 15);
    std::set<Names> found;
    std::set<Names> unseen;
    for (const AmbiguityGroup& group : survey.groups)
        (group.sound ? unseen : found).insert(set_of(group.faults));

    // 8 ohm in a leg to a terminator, behind the last point of that leg: 120 || 128 = 61.9 ohm against 60.
    CHECK(unseen == std::set<Names>{{"GW:joint-h@1", "GW:joint-l@2", "T1:joint-h@1", "T1:joint-l@2"}});

    std::set<Names> expected;
    // A terminator out of reach behind its last point: 120 ohm at every point, whichever it is. The gateway's
    // transceiver goes with its plug, but kilohms tell nothing.
    expected.insert({"GW:missing", "GW:apart", "GW:receded-h@1", "GW:receded-l@2", "T1:missing",
                     "T1:receded-h@1", "T1:receded-l@2"});
    for (const std::string line : {"h", "l"}) {
        const auto fault = [&](std::string_view part, std::string_view mode, std::string_view where = "") {
            return fmt::format("{}:{}-{}{}", part, mode, line, where);
        };
        const std::string_view pin = line == "h" ? "@6" : "@14";
        // Before the first point after the clip: everything is open from there. The splice has a point of its
        // own, so that of its three legs only this one is between the clip and it.
        expected.insert({fault("DS", "receded", pin), fault("S1", "open", "@W1"), fault("W1", "open")});
        expected.insert({fault("DS", "joint", pin), fault("S1", "joint", "@W1"), fault("W1", "joint")});
        // A splice's leg and its wire lie between the same two points.
        for (const std::string_view mode : {"open", "joint"}) {
            expected.insert({fault("S1", mode, "@W2"), fault("W2", mode)});
            expected.insert({fault("S1", mode, "@W3"), fault("W3", mode)});
        }
    }
    // A short of any part pulls the whole bus along: milliohms of wire are not told apart.
    const std::vector<std::string> parts{"DS", "GW", "M1", "X1", "X2", "S1", "T1", "BP1",
                                         "W1", "W2", "W3", "W4", "W5", "W6", "W7"};
    for (const std::string mode : {"short", "ground-h", "ground-l", "supply-h", "supply-l"}) {
        Names shorts;
        for (const std::string& part : parts) shorts.insert(fmt::format("{}:{}", part, mode));
        expected.insert(shorts);
    }
    CHECK(found == expected);
    CHECK(survey.largest_group == 15);
}

TEST_CASE("faults detected and isolated on the small chain are counted as by hand") {
    const Survey survey = advice::survey(test::small_chain(), 0);
    // 7 runs x 10, 2 connectors x 10, splice 17, terminator 10, plug 14, socket 9, gateway 11, M1 18.
    CHECK(survey.faults == 169);
    // The 4 joints in the legs to the terminators are not seen.
    CHECK(survey.detected.of_faults == Approx(165.0 / 169));
    // Not to one part: 15 x 5 shorts, 7 of the terminators, 12 before the splice's point, 16 of its legs.
    CHECK(survey.to_one.of_faults == Approx((165.0 - 75 - 7 - 12 - 16) / 165));
    CHECK(survey.to_two.of_faults == Approx((165.0 - 75 - 12) / 165));
    CHECK(survey.to_three.of_faults == Approx((165.0 - 75) / 165));
}

TEST_CASE("the cheapest reading that splits the shorts of the small chain costs what it costs by hand") {
    const Survey survey = advice::survey(test::small_chain(), 0);
    const AmbiguityGroup& shorts = group_with(survey, "X1:short");
    REQUIRE(shorts.cheapest);
    // Kick panel off and on 7 + 5, unmate 1, read at the socket 0.5, mate 1; all in the driver's footwell.
    CHECK(shorts.cheapest->minutes == Approx(14.5));
    REQUIRE(shorts.sharpest);
    CHECK(shorts.sharpest->unplug == "X1");
    CHECK(shorts.sharpest->minutes == Approx(14.5));
    CHECK(shorts.sharpest->bits > shorts.cheapest->bits);
    // With X1 apart the socket sees the short only where it is on the socket's side (or in half a of X1).
    for (const advice::SplitOutcome& outcome : shorts.sharpest->outcomes) {
        const Names near{"DS", "GW", "X1", "S1", "W1", "W2", "W3"};
        CHECK((set_of(outcome.parts) == near) == (outcome.shows == "closed, below 3 ohm"));
    }
    // Nothing can be read between the socket's contact and the splice's crimp: there is no point between.
    CHECK_FALSE(group_with(survey, "W1:open-h").cheapest);
}

TEST_CASE("two cases are in one group exactly when every reading comes out alike") {
    std::size_t alike = 0;
    std::size_t apart = 0;
    for (std::uint64_t seed = 0; seed < 25; ++seed) {
        test::RandomHarnessShape shape;
        shape.most_points = 16;
        const harness::Harness made = test::harness_from_text(test::random_harness_json(seed, shape));
        diagnosis::Predictor predictor(made, 0);
        const advice::Ambiguity ambiguity = advice::ambiguity(predictor);
        REQUIRE(ambiguity.readings.size() >= 5);
        std::vector<std::vector<int>> columns;
        for (const diagnosis::Tips& tips : ambiguity.readings) {
            std::vector<double> column;
            for (const diagnosis::Explanation& one : ambiguity.cases)
                column.push_back(predictor.ohms(one, {}, {tips}).front());
            columns.push_back(outcomes_again(column));
        }
        for (std::size_t i = 0; i < ambiguity.cases.size(); ++i) {
            for (std::size_t j = i + 1; j < ambiguity.cases.size(); ++j) {
                const bool same = std::all_of(columns.begin(), columns.end(),
                                              [&](const auto& column) { return column[i] == column[j]; });
                if (same != (ambiguity.group[i] == ambiguity.group[j])) FAIL("seed " << seed);
                ++(same ? alike : apart);
            }
        }
    }
    CHECK(alike > 10'000);
    CHECK(apart > 100'000);
}

TEST_CASE("with a part apart continuity is read from what it lays open to the clip, and to nothing else") {
    const harness::Harness& harness = test::small_chain();
    diagnosis::Predictor predictor(harness, 0);
    const Index clip = harness.networks[0].clip;
    const auto clipped = harness.points[clip].terminal;
    std::array<std::size_t, 2> continuity{};
    for (const auto& reading : advice::extra_readings(predictor, access::Costs(harness, 0), clip)) {
        const auto& [red, black] = reading.tips;
        for (std::size_t line = 0; line < 2; ++line) {
            if (reading.apart == harness::none || black != diagnosis::at(clipped[line])) continue;
            if (red == diagnosis::at(clipped[1 - line])) continue;  // H to L
            CHECK(red != black);
            ++continuity[line];
        }
    }
    CHECK(continuity[0] > 0);
    CHECK(continuity[0] == continuity[1]);
}

TEST_CASE("a reading said to split a group does, and its outcomes hold every part", "[long]") {
    for (std::uint64_t seed = 100; seed < 115; ++seed) {
        const harness::Harness made = test::harness_from_text(test::random_harness_json(seed));
        const Survey survey = advice::survey(made, 0);
        for (const AmbiguityGroup& group : survey.groups) {
            if (group.sharpest) {
                CHECK(group.sharpest->minutes >= group.cheapest->minutes);
                CHECK(group.sharpest->bits / group.sharpest->minutes >
                      group.cheapest->bits / group.cheapest->minutes);
            }
            for (const auto& test : {group.cheapest, group.sharpest}) {
                if (!test) continue;
                Names all;
                double chance = 0;
                bool fewer = false;
                for (const advice::SplitOutcome& outcome : test->outcomes) {
                    all.insert(outcome.parts.begin(), outcome.parts.end());
                    chance += outcome.chance;
                    fewer =
                        fewer || outcome.parts.size() < group.parts.size() || (group.sound && !outcome.sound);
                }
                INFO("seed " << seed << ", " << group.faults.front());
                CHECK(all == set_of(group.parts));
                CHECK(chance == Approx(1));
                CHECK(fewer);
                CHECK(test->bits >= 0);
                CHECK(test->bits <= std::log2(group.parts.size() + (group.sound ? 1 : 0)) + 1e-9);
            }
        }
    }
}

TEST_CASE("the survey of the minibus makes sense", "[long]") {
    const harness::Harness minibus = test::harness_from("data/demo/minibus.json");
    for (Index network = 0; network < minibus.networks.size(); ++network) {
        const Survey survey = advice::survey(minibus, network);
        INFO(survey.network);
        for (const auto& share : {survey.detected, survey.to_one, survey.to_two, survey.to_three}) {
            CHECK((share.of_faults > 0.2 && share.of_faults < 1));
            CHECK((share.by_chance > 0.2 && share.by_chance < 1));
        }
        CHECK(survey.to_one.by_chance <= survey.to_two.by_chance);
        CHECK(survey.to_two.by_chance <= survey.to_three.by_chance);
        CHECK(survey.quote.lower_bound_minutes <= survey.quote.expected_minutes);
        CHECK(survey.quote.expected_minutes <= survey.quote.worst_minutes);
        // The gateway is behind the dash panel, and all that lies over it: nothing costs more.
        CHECK(survey.costly.front().part == "GW");
        // A short between the lines is everybody's, and taking the bus apart somewhere tells on which side.
        const AmbiguityGroup& shorts = group_with(survey, "GW:short");
        CHECK(shorts.parts.size() == survey.parts);
        REQUIRE(shorts.cheapest);
        CHECK_FALSE(shorts.cheapest->unplug.empty());
        double unseen = 0;
        for (const AmbiguityGroup& group : survey.groups) unseen += group.sound ? group.chance : 0;
        CHECK(unseen == Approx(1 - survey.detected.by_chance));
    }
}
