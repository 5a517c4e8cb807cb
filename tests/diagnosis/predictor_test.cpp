// What a meter would show on a real harness file, against arithmetic.
#include "halfsplit/diagnosis/predictor.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"

#include <cmath>

using halfsplit::diagnosis::Explanation;
using halfsplit::diagnosis::Predictor;
using halfsplit::diagnosis::Situation;
using namespace halfsplit::test;

namespace {

struct Bench {
    halfsplit::harness::Harness harness = small_chain();
    Predictor predictor{harness, 0};

    double ohms(const std::string& red, const std::string& black, const std::vector<std::string>& faults = {},
                const std::vector<std::string>& apart = {}) {
        Explanation explanation;
        for (const std::string& name : faults) explanation.faults.push_back(fault_named(harness, name));
        Situation situation;
        for (const std::string& part : apart) situation.apart.push_back(find_part(harness, part));
        return predictor.ohms(explanation, situation, {tips(harness, red, black)}).front();
    }
};

}  // namespace

TEST_CASE("a sound bus reads 60 ohm H to L at every point") {
    Bench bench;
    // Two nominal terminators of 120 ohm (ISO 11898-2), a few hundred milliohms of wire and contacts, and
    // transceivers of 40 kohm and 2 x 25 kohm that take less than 1 % off.
    for (const char* pair :
         {"DS:6 DS:14", "X1.a:4 X1.a:5", "X1.b:4 X1.b:5", "M1:1 M1:2", "M2:9 M2:10", "T1:1 T1:2"}) {
        const std::string text = pair;
        const auto space = text.find(' ');
        REQUIRE(bench.ohms(text.substr(0, space), text.substr(space + 1)) == Approx(60).margin(0.7));
    }
}

TEST_CASE("with both terminators in, every open of the backbone reads 120 ohm H to L at every point") {
    Bench bench;
    for (const char* fault :
         {"X1:receded-h@4", "W4:open-l", "W4:open", "M1:through-h", "X2:apart", "W6:open-h"}) {
        for (const char* at : {"DS:6 DS:14", "X1.a:4 X1.a:5", "X2.b:1 X2.b:2", "T1:1 T1:2"}) {
            const std::string text = at;
            const auto space = text.find(' ');
            INFO(fault << " at " << at);
            REQUIRE(bench.ohms(text.substr(0, space), text.substr(space + 1), {fault}) ==
                    Approx(120).margin(1.5));
        }
    }
}

TEST_CASE("an open in one line reads the way round through both terminators, not OL") {
    Bench bench;
    REQUIRE(bench.ohms("DS:6", "T1:1", {"W4:open-h"}) == Approx(240).margin(3));
    REQUIRE(bench.ohms("DS:6", "X1.b:4", {"W4:open-h"}) < 0.2);
    REQUIRE(bench.ohms("DS:14", "T1:2", {"W4:open-h"}) < 0.5);
}

TEST_CASE(
    "an open in both lines reads kilohms by the transceivers, and OL when nothing else joins the ends") {
    Bench bench;
    // Behind the break M1 and T1 are left; M1's transceiver reaches ground, and so does the gateway's.
    REQUIRE(bench.ohms("DS:6", "T1:1", {"W4:open"}) > 10'000);
    // With M1 unplugged nothing beyond it but the terminator is left.
    REQUIRE(std::isinf(bench.ohms("DS:6", "T1:1", {}, {"M1"})));
}

TEST_CASE("unplugging a loop module opens the chain, unplugging a spur does not") {
    Bench bench;
    REQUIRE(bench.ohms("DS:6", "DS:14", {}, {"M1"}) == Approx(120).margin(1));
    REQUIRE(std::isinf(bench.ohms("DS:6", "X2.a:1", {}, {"M1"})));
    REQUIRE(bench.ohms("DS:6", "X2.a:1", {}, {"GW"}) < 0.5);
}

TEST_CASE("the bridge plug stands in for the module that is not fitted") {
    Bench bench;
    REQUIRE(bench.ohms("M2:7", "M2:9") < 0.2);
    REQUIRE(bench.ohms("M2:7", "M2:9", {"BP1:absent"}) > 10'000);
    REQUIRE(bench.ohms("DS:6", "DS:14", {"BP1:absent"}) == Approx(120).margin(1.5));
}

TEST_CASE("shorts read as shorts, and a terminator missing or too many as the arithmetic says") {
    Bench bench;
    REQUIRE(bench.ohms("DS:6", "DS:14", {"W4:short"}) < 1);
    REQUIRE(bench.ohms("DS:6", "ground", {"W4:ground-h"}) < 1);
    REQUIRE(bench.ohms("DS:6", "supply", {"W4:supply-h"}) < 1);
    REQUIRE(bench.ohms("DS:14", "ground", {"W4:ground-h"}) == Approx(60).margin(1));
    REQUIRE(bench.ohms("DS:6", "ground") > 1000);  // above 1 kohm at rest: common practice, no source
    REQUIRE(bench.ohms("DS:6", "DS:14", {"T1:missing"}) == Approx(120).margin(1.5));
    REQUIRE(bench.ohms("DS:6", "DS:14", {"M1:extra"}) == Approx(40).margin(0.5));  // three of 120: 40 ohm
}

TEST_CASE("two faults change the reading together") {
    Bench bench;
    // H open at one place, L at another: with the ends cut off from each other nothing but kilohms is left
    // between them.
    REQUIRE(bench.ohms("X1.b:4", "X1.b:5", {"X1:receded-h@4", "W5:open-l"}) > 5000);
    REQUIRE(bench.ohms("DS:6", "DS:14", {"X1:receded-h@4", "W5:open-l"}) == Approx(120).margin(1));
}

TEST_CASE("a tip that is not on this vehicle has no prediction") {
    auto harness = small_chain();
    harness.options.front().fitted = halfsplit::harness::Fitted::Yes;
    REQUIRE(std::isnan(Predictor(harness, 0).ohms({}, {}, {tips(harness, "DS:6", "X1.b:7")}).front()));
}
