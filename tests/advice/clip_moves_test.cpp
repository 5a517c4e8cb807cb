#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/harness/vehicle.hpp"

#include "advice/problem.hpp"
#include "support/advice_bench.hpp"
#include "support/catch.hpp"
#include "support/harnesses.hpp"

#include <algorithm>
#include <set>

namespace halfsplit::advice {

namespace {

using harness::Index;

struct Bench : test::AdviceBench {
    using AdviceBench::AdviceBench;

    // Readings with the clip moved that are worth planning with.
    std::vector<diagnosis::Tips> moved(const std::vector<AskedReading>& barred = {}) {
        const Posed posed = pose({standing(), barred, {}}, predictor);
        std::vector<diagnosis::Tips> result;
        for (const PlannedReading& reading : posed.readings) {
            if (posed.arrangements[reading.arrangement].step == ArrangingStep::MoveClip)
                result.push_back(reading.tips);
        }
        return result;
    }
};

}  // namespace

TEST_CASE("the clip may sit at any point of the bus, the nearest first") {
    const Bench bench;
    const auto all = arrangements(bench.standing(), bench.harness.points.size());
    std::set<Index> clips;
    double last = 0;
    for (const Arrangement& one : all) {
        if (one.step != ArrangingStep::MoveClip) continue;
        CHECK(clips.insert(one.clip).second);
        const double minutes =
            bench.costs.workshop().reach(bench.costs.clip(one.clip), bench.harness.start, 0);
        CHECK(minutes >= last);
        last = minutes;
        CHECK(one.back_minutes == bench.harness.assumptions.clip_minutes);
    }
    const auto fitted = harness::presence(bench.harness);
    const auto there =
        std::count_if(bench.harness.points.begin(), bench.harness.points.end(),
                      [&](const harness::Point& point) { return fitted[point.part] != harness::Fitted::No; });
    CHECK(clips.size() == static_cast<std::size_t>(there) - 1);
    CHECK(clips.count(bench.clip) == 0);
}

TEST_CASE("with one open on a chain a moved clip tells nothing that two readings do not") {
    CHECK(Bench(test::all_answer()).moved().empty());
}

TEST_CASE("a point that is not read from the clip again is read from another one") {
    Bench bench(test::all_answer());
    const auto barred = test::tips(bench.harness, "X1.b:4", "DS:6");
    REQUIRE(bench.harness.points[bench.clip].terminal[0] == barred.black.terminal);
    const auto moved = bench.moved({{barred}});
    REQUIRE_FALSE(moved.empty());
    for (const diagnosis::Tips& tips : moved) CHECK((tips.red == barred.red || tips.black == barred.red));
}

TEST_CASE("where a lead did not get to, no clip is set either") {
    Bench bench(test::all_answer());
    const auto barred = test::tips(bench.harness, "X1.b:4", "DS:6");
    const PoseInput input{bench.standing(), {{barred}}, {barred.red.terminal}};
    for (const PlannedReading& reading : pose(input, bench.predictor).readings) {
        CHECK_FALSE(reading.tips.red == barred.red);
        CHECK_FALSE(reading.tips.black == barred.red);
    }
}

TEST_CASE("with one open found, a moved clip reads beyond it for a second one") {
    const auto read = [](const char* red, const char* black, double ohm) {
        return diagnosis::Measured{.tips = test::tips(test::small_chain(), red, black),
                                   .observation = {.shown = diagnosis::Shown::Ohm, .ohm = ohm}};
    };
    // H is open at X1, L somewhere behind it.
    diagnosis::Evidence evidence = test::all_answer();
    evidence.measured = {read("X1.b:4", "DS:6", electrics::open_circuit), read("X1.b:5", "DS:14", 0.3),
                         read("M1:2", "DS:14", electrics::open_circuit), read("X1.a:4", "DS:6", 0.3)};
    Bench two(evidence);
    REQUIRE(two.belief.pairs);
    const auto moved = two.moved();
    REQUIRE_FALSE(moved.empty());
    // Of line H, which is open towards the clip.
    const Index beyond = test::tips(two.harness, "X1.b:4", "DS:6").red.terminal;
    CHECK(std::any_of(moved.begin(), moved.end(),
                      [&](const diagnosis::Tips& tips) { return tips.black.terminal == beyond; }));
}

}  // namespace halfsplit::advice
