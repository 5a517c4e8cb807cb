#include "advice/problem.hpp"
#include "support/advice_bench.hpp"
#include "support/catch.hpp"
#include "support/harnesses.hpp"

#include <algorithm>

namespace halfsplit::advice {

namespace {

Posed posed(bool moves_loom, bool comes_and_goes = true, const std::vector<AskedReading>& barred = {}) {
    test::AdviceBench bench(test::all_answer(comes_and_goes));
    return pose({bench.standing(), barred, {}, moves_loom}, bench.predictor);
}

// As things stand; none where it is not planned with.
const plan::Test* test_of(const Posed& posed, const diagnosis::Tips& tips) {
    for (std::size_t r = 0; r < posed.readings.size(); ++r) {
        const Arrangement& own = posed.arrangements[posed.readings[r].arrangement];
        if (posed.readings[r].tips == tips && own.step == ArrangingStep::None) return &posed.problem.tests[r];
    }
    return nullptr;
}

// Of all hypotheses, the chance that the reading does not come out closed.
double seen(const Posed& posed, const plan::Test& test) {
    const auto& classes =
        posed.readings[static_cast<std::size_t>(&test - posed.problem.tests.data())].outcomes;
    double chance = 0;
    for (std::size_t h = 0; h < posed.problem.hypotheses.size(); ++h) {
        if (classes[static_cast<std::size_t>(test.outcome[h])].high_ohm >= 3)
            chance += posed.problem.hypotheses[h].probability;
    }
    return chance;
}

}  // namespace

TEST_CASE(
    "at rest a part of what comes and goes shows nothing; with the loom moved all shows, for a minute more") {
    const auto tips = test::tips(test::small_chain(), "X1.b:4", "DS:6");
    const Posed at_rest = posed(false), moved = posed(true), steady = posed(false, false);
    REQUIRE(test_of(at_rest, tips) != nullptr);
    REQUIRE(test_of(moved, tips) != nullptr);
    REQUIRE(test_of(steady, tips) != nullptr);
    CHECK(test_of(moved, tips)->site.minutes ==
          Approx(test_of(at_rest, tips)->site.minutes + test::small_chain().assumptions.loom_minutes));
    const double all = seen(moved, *test_of(moved, tips));
    REQUIRE(all > 0);
    // Told to come and go 0.8, quiet at rest 0.5.
    CHECK(seen(at_rest, *test_of(at_rest, tips)) / all == Approx(1 - 0.8 * 0.5).margin(2e-3));
    CHECK(steady.problem.hypotheses.size() < at_rest.problem.hypotheses.size());
}

TEST_CASE("a reading taken twice at rest may still be taken with the loom moved") {
    const auto tips = test::tips(test::small_chain(), "X1.b:4", "DS:6");
    const std::vector<AskedReading> barred{{tips, electrics::Power::Off, false}};
    CHECK(test_of(posed(false, true, barred), tips) == nullptr);
    CHECK(test_of(posed(true, true, barred), tips) != nullptr);
}

}  // namespace halfsplit::advice
