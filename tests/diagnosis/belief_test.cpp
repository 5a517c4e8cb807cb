// What the belief makes of readings, looks, scans and repairs.
#include "halfsplit/diagnosis/belief.hpp"

#include "halfsplit/diagnosis/prior.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/plain_solve.hpp"

#include <cmath>
#include <numeric>

using namespace halfsplit::diagnosis;
using namespace halfsplit::test;
using halfsplit::harness::Harness;

namespace {

constexpr double ol = std::numeric_limits<double>::infinity();

Measured read(const Harness& harness, const std::string& red, const std::string& black, double ohm,
              Situation situation = {}) {
    return {1, tips(harness, red, black), {.shown = Shown::Ohm, .ohm = ohm}, std::move(situation)};
}

double probability_of(const Belief& belief, const Harness& harness, const std::string& part) {
    return by_part(belief, harness)[find_part(harness, part)];
}

}  // namespace

TEST_CASE("weights add up to one, and are nothing where no part is said to fail") {
    Harness harness = small_chain();
    const auto faults = all_faults(harness, Predictor(harness, 0).circuit(0).assembly);
    const std::vector<double> weights = fault_weights(harness, faults);
    CHECK(std::accumulate(weights.begin(), weights.end(), 0.0) == Approx(1));
    for (auto& part : harness.parts) part.weight = 0;
    CHECK(fault_weights(harness, faults) == std::vector<double>(faults.size(), 0));
}

TEST_CASE("two readings that bracket one part leave that part") {
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    const Belief belief =
        infer(predictor,
              {.measured = {read(harness, "X1.a:4", "DS:6", 0.3), read(harness, "X1.b:4", "DS:6", 240)}});
    REQUIRE(probability_of(belief, harness, "X1") > 0.9);
    REQUIRE(suspects(belief, harness).front().fault.part == find_part(harness, "X1"));
}

TEST_CASE("one open reading alone leaves a bad contact in play") {
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    const Belief before = infer(predictor, {});
    const Belief after = infer(predictor, {.measured = {read(harness, "X1.a:4", "DS:6", ol)}});
    // What lies beyond X1 cannot make that reading, but a slip can: it is less likely, not gone.
    REQUIRE(probability_of(after, harness, "W6") < probability_of(before, harness, "W6"));
    REQUIRE(probability_of(after, harness, "W6") > 0.01 * probability_of(before, harness, "W6"));
}

TEST_CASE("readings from before a repair stay evidence of the state they were taken in") {
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    const auto x1 = find_part(harness, "X1");
    const Situation repaired{.repaired = {{x1}}};
    std::vector<Measured> readings{read(harness, "X1.a:4", "DS:6", 0.3), read(harness, "X1.b:4", "DS:6", 240),
                                   read(harness, "X1.b:4", "DS:6", 0.3, repaired)};
    const Belief cured =
        infer(predictor, {.measured = readings, .proved = {{true, repaired}}, .now = repaired});
    REQUIRE(nothing_wrong(cured, harness) > 0.9);

    // X2's line L was open as well: the same repair, but the complaint is still there.
    const Explanation both{
        .faults = {fault_named(harness, "X1:receded-h@4"), fault_named(harness, "X2:receded-l@2")}};
    std::vector<Measured> after{read(harness, "X1.a:4", "DS:6", 0), read(harness, "X1.b:4", "DS:6", 0),
                                read(harness, "X1.b:4", "DS:6", 0, repaired),
                                read(harness, "X2.a:2", "DS:14", 0, repaired),
                                read(harness, "X2.b:2", "DS:14", 0, repaired)};
    for (Measured& reading : after) {
        reading.observation.ohm = predictor.ohms(both, reading.situation, {reading.tips}).front();
    }
    const Belief second =
        infer(predictor, {.measured = after, .proved = {{false, repaired}}, .now = repaired});
    REQUIRE(second.pairs);
    REQUIRE(nothing_wrong(second, harness) < 0.05);
    REQUIRE(probability_of(second, harness, "X2") > 0.8);
}

TEST_CASE("what one fault cannot carry is carried by two") {
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    // H is open between X1's halves, L between X2's. With H and L cut the way round is gone too: only the
    // transceiver of the module between the cuts is left, so the meter shows kilohms.
    const Explanation both{
        .faults = {fault_named(harness, "X1:receded-h@4"), fault_named(harness, "X2:receded-l@2")}};
    std::vector<Measured> readings{
        read(harness, "X1.a:4", "DS:6", 0),
        read(harness, "X1.b:4", "DS:6", 0),
        read(harness, "X2.a:2", "DS:14", 0),
        read(harness, "X2.b:2", "DS:14", 0),
    };
    for (Measured& reading : readings)
        reading.observation.ohm = predictor.ohms(both, {}, {reading.tips}).front();
    REQUIRE(readings[1].observation.ohm > 5000);
    const Belief belief = infer(predictor, {.measured = readings});
    REQUIRE(belief.pairs);
    REQUIRE(probability_of(belief, harness, "X1") > 0.5);
    REQUIRE(probability_of(belief, harness, "X2") > 0.5);
}

TEST_CASE("a reading that nothing carries is named as surprising, and nothing breaks") {
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    // Closed to both halves of X1 and beyond, open before it: only a slip explains the last.
    const Belief belief = infer(
        predictor, {.measured = {read(harness, "X1.b:4", "DS:6", 0.3), read(harness, "X1.b:5", "DS:14", 0.3),
                                 read(harness, "X1.a:4", "DS:6", ol)}});
    REQUIRE(belief.surprise[2] > 0.5);
    REQUIRE(belief.surprise[0] < 0.5);
    REQUIRE(std::accumulate(belief.probability.begin(), belief.probability.end(), 0.0) == Approx(1));
}

TEST_CASE("everything answers up to one module and nothing beyond: a strong split, free of cost") {
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    const auto gateway = find_part(harness, "GW");
    const auto seat = find_part(harness, "M1");
    const Belief before = infer(predictor, {});
    const Belief belief =
        infer(predictor, {.scanned = {{1, {.answering = {gateway}, .silent = {seat}}, {}}}});
    REQUIRE(probability_of(belief, harness, "X1") > 1.5 * probability_of(before, harness, "X1"));
    REQUIRE(probability_of(belief, harness, "W7") < 0.5 * probability_of(before, harness, "W7"));
    // Silence alone never condemns a module: what is on the way to it stays likelier than its inside.
    REQUIRE(probability_of(belief, harness, "X1") > probability_of(belief, harness, "M1"));
}

TEST_CASE("a complaint that comes and goes makes a good reading at rest weaker") {
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    const std::vector<Measured> closed{read(harness, "X1.b:4", "DS:6", 0.3)};
    const auto chance_of_open = [&](const Belief& belief) {
        for (const Suspect& suspect : suspects(belief, harness)) {
            if (name(harness, suspect.fault) == "W3:open-h") return suspect.probability;
        }
        return 0.0;
    };
    const double steady = chance_of_open(infer(predictor, {.measured = closed}));
    const double coming_and_going =
        chance_of_open(infer(predictor, {.measured = closed, .comes_and_goes = true}));
    REQUIRE(coming_and_going > 10 * steady);
}

TEST_CASE("a bad joint of any ohms is found, not only those of the grid") {
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    struct Place {
        std::string fault, before, behind, clip;
    };
    for (const Place& place : {Place{"X2:joint-h@1", "X2.a:1", "X2.b:1", "DS:6"},
                               Place{"W4:joint-l", "X1.b:5", "M1:2", "DS:14"}}) {
        for (const double ohm : {20.0, 90.0, 600.0, 2500.0}) {
            INFO(place.fault << " of " << ohm << " ohm");
            Explanation truth{.faults = {fault_named(harness, place.fault)}};
            truth.faults.front().ohm = ohm;
            std::vector<Measured> readings{
                read(harness, "DS:6", "DS:14", 0), read(harness, place.before, place.clip, 0),
                read(harness, place.behind, place.clip, 0),
                // Without the way round through both terminators.
                read(harness, place.behind, place.clip, 0, {.apart = {find_part(harness, "T1")}})};
            for (Measured& reading : readings) {
                reading.observation.ohm = predictor.ohms(truth, reading.situation, {reading.tips}).front();
            }
            const Belief belief = infer(predictor, {.measured = readings});
            CHECK_FALSE(belief.pairs);
            CHECK(name(harness, suspects(belief, harness).front().fault) == place.fault);
            CHECK(suspects(belief, harness).front().probability > 0.5);
            for (const double surprise : belief.surprise) CHECK(surprise < 0.5);
        }
    }
}
