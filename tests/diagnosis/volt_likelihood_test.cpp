// How likely a reading in volts is, and what it makes believe.
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/volts.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"

#include <cmath>

using namespace halfsplit::diagnosis;
using namespace halfsplit::test;
using halfsplit::harness::Assumptions;
using halfsplit::harness::Harness;

namespace {

using Pulled = TipVolts::Pulled;

PredictedVolts against_ground(std::optional<double> rest, Pulled pulled = Pulled::Nowhere) {
    return {{rest, pulled}, {0.0}};
}

double honest(double volt, const PredictedVolts& predicted) {
    return likelihood({.volt = volt}, predicted, Assumptions{}).honest;
}

double gross_share(double volt, const PredictedVolts& predicted) {
    const Likelihood chance = likelihood({.volt = volt}, predicted, Assumptions{});
    return (chance.slip + chance.wrong) / chance.total;
}

Measured read(const Harness& harness, const std::string& red, double volt, bool awake = true) {
    Measured measured{1, tips(harness, red, "ground"), {}, {}};
    measured.volts = VoltObservation{.volt = volt, .awake = awake};
    return measured;
}

// Probability of everything that is wrong in that way.
double chance_of(const Belief& belief, Mode mode) {
    double sum = 0;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        for (const Fault& fault : belief.explanations[i].faults) {
            if (fault.mode == mode) sum += belief.probability[i];
        }
    }
    return sum;
}

}  // namespace

TEST_CASE("a bus at rest is taken for one from 2.0 to 3.0 V, a sleeping one from -0.1 to 0.1 V") {
    // ISO 11898-2: recessive 2.0, 2.5, 3.0 V; bias inactive -0.1, 0, 0.1 V (data sheets of Texas Instruments
    // TCAN1146-Q1 and TCAN1043A-Q1).
    for (const double volt : {2.0, 2.2, 2.5, 2.8, 3.0}) CHECK(gross_share(volt, against_ground(2.5)) < 0.5);
    for (const double volt : {-0.1, 0.0, 0.1}) CHECK(gross_share(volt, against_ground(0.0)) < 0.5);
    for (const double volt : {0.0, 0.8, 4.5, 12.6}) CHECK(gross_share(volt, against_ground(2.5)) > 0.5);
    for (const double volt : {0.5, 2.5}) CHECK(gross_share(volt, against_ground(0.0)) > 0.5);
}

TEST_CASE("a talking bus shows H up to 3.5 V and L down to 1.5 V, and is no surprise") {
    // Dominant, nominal (from memory; ISO 11898-2 has H 2.75 to 4.5, L 0.5 to 2.25 V): a mean lies between.
    for (const double volt : {2.5, 2.7, 3.0, 3.3, 3.5})
        CHECK(gross_share(volt, against_ground(2.5, Pulled::Up)) < 0.5);
    for (const double volt : {2.5, 2.3, 2.0, 1.7, 1.5})
        CHECK(gross_share(volt, against_ground(2.5, Pulled::Down)) < 0.5);
    // The other way round nothing pulls.
    CHECK(honest(1.2, against_ground(2.5, Pulled::Up)) < 1e-3 * honest(3.0, against_ground(2.5, Pulled::Up)));
    // H to L of a talking bus: 0 to 2 V (dominant, nominal: 3.5 less 1.5, arithmetic).
    const PredictedVolts across{{2.5, Pulled::Up}, {2.5, Pulled::Down}};
    for (const double volt : {0.0, 0.6, 1.2}) CHECK(gross_share(volt, across) < 0.5);
    CHECK(gross_share(-1.0, across) > 0.5);
}

TEST_CASE(
    "the other line of a short to supply is pulled down by a bus that talks, the shorted one is not up") {
    CHECK(gross_share(7.0, against_ground(12.6, Pulled::Down)) < 0.5);
    CHECK(gross_share(7.0, against_ground(12.6, Pulled::Up)) > 0.5);
}

TEST_CASE("about 0 V on a live bus is mostly a bad contact, and a line that floats may show anything") {
    const Likelihood dead = likelihood({.volt = 0.02}, against_ground(2.5), Assumptions{});
    CHECK(dead.slip > 10 * dead.wrong);
    const auto floats = against_ground(halfsplit::electrics::floating);
    for (const double volt : {1.3, 2.5, 7.0, 12.6}) CHECK(gross_share(volt, floats) < 0.5);
    CHECK(likelihood({.volt = 2.5}, against_ground(std::nullopt), Assumptions{}).total < 1e-5);
}

TEST_CASE("two readings in volts are told apart from 0.3 V and a fifth on") {
    CHECK(distinguishable_volts(0, 0.4));
    CHECK_FALSE(distinguishable_volts(0, 0.2));
    CHECK(distinguishable_volts(2.5, 12.6));
    CHECK_FALSE(distinguishable_volts(12.6, 11.6));
    CHECK_FALSE(distinguishable_volts(2.5, 2.9));
}

TEST_CASE("a short to supply is found with volts, awake or asleep") {
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    const Belief before = infer(predictor, {});
    CHECK(chance_of(before, Mode::ShortSupply) < 0.1);
    for (const bool awake : {true, false}) {
        // At a module: the socket alone could float.
        const Belief after = infer(predictor, {.measured = {read(harness, "GW:1", 12.3, awake)}});
        CHECK(chance_of(after, Mode::ShortSupply) > 0.95);
    }
}

TEST_CASE("idle volts tell neither an open nor a short from H to L from a sound bus") {
    // Case 4 of the meter cases: idle volts cannot see an H to L short.
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    const Belief before = infer(predictor, {});
    const Belief after =
        infer(predictor, {.measured = {read(harness, "GW:1", 2.5), read(harness, "M1:2", 2.45)}});
    for (const Mode mode : {Mode::Open, Mode::ShortLines, Mode::Apart}) {
        // Both hang on a module whatever is open: all but shorts to ground and supply gain alike.
        CHECK(chance_of(after, mode) / nothing_wrong(after, harness) ==
              Approx(chance_of(before, mode) / nothing_wrong(before, harness)).epsilon(0.02));
    }
    CHECK(chance_of(after, Mode::ShortGround) < 0.01 * chance_of(before, Mode::ShortGround));
}

TEST_CASE("traffic on a sound bus does not condemn it") {
    const Harness& harness = small_chain();
    Predictor predictor(harness, 0);
    const Belief before = infer(predictor, {});
    const Belief after =
        infer(predictor, {.measured = {read(harness, "DS:6", 3.1), read(harness, "DS:14", 1.9)}});
    CHECK(nothing_wrong(after, harness) >= nothing_wrong(before, harness));
    CHECK_FALSE(after.pairs);
    for (const double surprise : after.surprise) CHECK(surprise < 0.1);
}
