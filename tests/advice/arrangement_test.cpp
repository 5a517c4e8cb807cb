#include "advice/arrangement.hpp"

#include "halfsplit/access/costs.hpp"
#include "halfsplit/diagnosis/belief.hpp"

#include "advice/problem.hpp"
#include "advice/whereabouts.hpp"
#include "support/advice_bench.hpp"
#include "support/catch.hpp"
#include "support/harnesses.hpp"

#include <algorithm>

namespace halfsplit::advice {

namespace {

using harness::Index;

struct Bench : test::AdviceBench {
    using AdviceBench::AdviceBench;

    std::vector<Arrangement> arrange() const { return arrangements(standing(), 1); }
};

const Arrangement& unplugged(const std::vector<Arrangement>& all, Index part) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Arrangement& one) {
        return one.step == ArrangingStep::Unplug && one.part == part;
    });
    REQUIRE(found != all.end());
    return *found;
}

}  // namespace

TEST_CASE("how things stand comes first, and each terminator may come off") {
    const Bench bench;
    const auto all = bench.arrange();
    REQUIRE(all.front().step == ArrangingStep::None);
    const Index terminator = find_part(bench.harness, "T1");
    REQUIRE(unplugged(all, terminator).apart == electrics::Apart{terminator});
    REQUIRE(unplugged(all, find_part(bench.harness, "GW")).site.minutes == 2);  // off 1, on again 1
}

TEST_CASE("with a terminator off, H to L is a locator: 120 ohm before an open, OL behind it") {
    Bench bench;
    const diagnosis::Explanation open{.faults = {test::fault_named(bench.harness, "X1:receded-h@4")}};
    const auto all = bench.arrange();
    const Arrangement& off = unplugged(all, find_part(bench.harness, "T1"));
    const auto tips = readings_in(off, bench.harness, 0);
    const auto at = [&](const char* red, const char* black) {
        const auto wanted = test::tips(bench.harness, red, black);
        REQUIRE(std::find(tips.begin(), tips.end(), wanted) != tips.end());
        return bench.predictor.ohms(open, {.apart = off.apart}, {wanted}).front();
    };
    CHECK(at("X1.a:4", "X1.a:5") == Approx(120).margin(3));
    // Kilohms of the transceivers are all that is left behind it.
    CHECK(at("X1.b:4", "X1.b:5") > 5000);
}

TEST_CASE("a bus is taken apart for a short only where one is suspected") {
    const Bench at_first;
    REQUIRE_NOTHROW(unplugged(at_first.arrange(), find_part(at_first.harness, "X2")));
    // Everything answers but the module behind X1: a short would have silenced all.
    diagnosis::Evidence evidence;
    const Index gateway = find_part(at_first.harness, "GW"), module = find_part(at_first.harness, "M1");
    evidence.scanned.push_back({1, {.answering = {gateway}, .silent = {module}}, {}});
    const Bench later(evidence);
    const auto all = later.arrange();
    CHECK(std::none_of(all.begin(), all.end(), [&](const Arrangement& one) {
        return one.step == ArrangingStep::Unplug && one.part == find_part(later.harness, "X2");
    }));
}

TEST_CASE("what is apart may be plugged in again, and its minutes are owed already") {
    diagnosis::Evidence evidence;
    evidence.now.apart = {find_part(test::small_chain(), "X2")};
    const Bench bench(evidence);
    const auto all = bench.arrange();
    REQUIRE(all[1].step == ArrangingStep::PlugIn);
    CHECK(all[1].apart.empty());
    CHECK(all[1].site.minutes == 0);
}

TEST_CASE("going to another arrangement takes the walk there, the step, and the walk on") {
    const Bench bench;
    const auto all = bench.arrange();
    const Index terminator = find_part(bench.harness, "T1");
    const auto off = static_cast<std::size_t>(&unplugged(all, terminator) - all.data());
    Whereabouts whereabouts(bench.costs.workshop(), all, bench.harness.assumptions);
    const std::size_t driver = find_place(bench.harness, "driver"), rear = find_place(bench.harness, "rear");
    const std::size_t here = whereabouts.reading({driver, 0, 1}, 0).place;
    const std::size_t here_then = whereabouts.reading({driver, 0, 1}, off).place;
    const std::size_t rear_then = whereabouts.reading({rear, 0, 1}, off).place;
    const std::size_t look_rear = whereabouts.look({rear, 0, 1}).place;
    const access::Workshop workshop = whereabouts.workshop();
    // Driver's footwell to the rear 3 minutes, unplugging with plugging in again 2.
    CHECK(workshop.travel(here, rear_then) == 5);
    CHECK(workshop.travel(here, here_then) == 8);
    CHECK(workshop.travel(here_then, rear_then) == 3);
    CHECK(workshop.travel(here_then, look_rear) == 3);
    // Back to how things stood: plugging in was owed already.
    CHECK(workshop.travel(here_then, here) == 0);
    // The covers before the terminator come off on the way.
    CHECK(whereabouts.reading({driver, 0, 1}, off).need == bench.costs.look(terminator).need);
}

TEST_CASE("no walk over anywhere else is shorter than the way itself, whatever is arranged on it") {
    for (const char* path :
         {"tests/data/small_chain.json", "data/demo/minibus.json", "data/demo/forestry.json"}) {
        const harness::Harness harness = test::harness_from(path);
        diagnosis::Predictor predictor(harness, 0);
        const diagnosis::Belief belief = infer(predictor, {});
        const access::Costs costs(harness, 0);
        const Posed posed = pose(
            {{harness, 0, belief, costs, {harness.start, 0}, harness.networks[0].clip}, {}, {}}, predictor);
        const access::Workshop& workshop = posed.problem.workshop;
        REQUIRE(workshop.places() > harness.places.size());
        std::size_t shorter = 0;
        for (std::size_t from = 0; from < workshop.places(); ++from)
            for (std::size_t by = 0; by < workshop.places(); ++by)
                for (std::size_t to = 0; to < workshop.places(); ++to)
                    if (workshop.travel(from, by) + workshop.travel(by, to) <
                        workshop.travel(from, to) - 1e-9)
                        ++shorter;
        CHECK(shorter == 0);
    }
}

}  // namespace halfsplit::advice
