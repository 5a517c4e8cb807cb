// Faults that come and go, and contacts that reseating has quieted or mended.
#include "halfsplit/diagnosis/belief.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"

#include <cmath>

using namespace halfsplit::diagnosis;
using namespace halfsplit::test;
using halfsplit::harness::Harness;

namespace {

struct Bench {
    Harness harness = small_chain();
    Predictor predictor{harness, 0};

    Measured read(const std::string& red, const std::string& black, double ohm,
                  const Situation& situation = {}) const {
        return {.tips = tips(harness, red, black), .observation = {.ohm = ohm}, .situation = situation};
    }
    Measured provoked(const std::string& red, const std::string& black, double ohm) const {
        Measured measured = read(red, black, ohm);
        measured.provoked = true;
        return measured;
    }
    halfsplit::harness::Index part(const std::string& id) const { return find_part(harness, id); }
    Situation reseated(const std::string& id) const { return {.reseated = {part(id)}}; }
    Situation repaired(const std::string& id, bool by_reseating) const {
        return {.repaired = {{part(id), by_reseating}}};
    }

    double of_part(const Belief& belief, const std::string& id) const {
        return by_part(belief, harness)[part(id)];
    }
    double of_fault(const Belief& belief, const std::string& wanted) const {
        double sum = 0;
        for (const Suspect& suspect : suspects(belief, harness)) {
            if (name(harness, suspect.fault) == wanted) sum += suspect.probability;
        }
        return sum;
    }
    // Of the fault against a sound bus.
    double odds(const Evidence& evidence, const std::string& fault) {
        const Belief belief = infer(predictor, evidence);
        return of_fault(belief, fault) / nothing_wrong(belief, harness);
    }
    // Chance that the explanation's first fault is there and quiet since its part was reseated.
    double quieted(const Belief& belief) const {
        double sum = 0;
        for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
            const Explanation& own = belief.explanations[i];
            if (unmended(harness, own, belief.now).size() > remaining(harness, own, belief.now).size())
                sum += belief.probability[i];
        }
        return sum;
    }
};

}  // namespace

TEST_CASE("a sound reading while the loom is moved clears a fault that comes and goes five times better") {
    Bench bench;
    const auto after = [&](const std::vector<Measured>& measured) {
        return bench.odds({.measured = measured, .comes_and_goes = true}, "W4:open-h");
    };
    const double before = after({});
    const double at_rest = after({bench.read("X2.b:1", "DS:6", 0.3)});
    const double moved = after({bench.provoked("X2.b:1", "DS:6", 0.3)});
    // Told to come and go, it does with 0.8; then it is quiet at rest with 0.5, while moved or wet with 0.1.
    CHECK(at_rest / before == Approx(0.8 * 0.5).epsilon(0.01));
    CHECK(moved / before == Approx(0.8 * 0.1).epsilon(0.01));
}

TEST_CASE("a reading that shows the fault counts as much at rest as moved: only silence is weaker") {
    Bench bench;
    const auto after = [&](const Measured& measured) {
        return infer(bench.predictor, {.measured = {measured}, .comes_and_goes = true});
    };
    const Belief at_rest = after(bench.read("M1:1", "X1.b:4", 238));
    const Belief moved = after(bench.provoked("M1:1", "X1.b:4", 238));
    CHECK(bench.of_part(at_rest, "W4") > 0.9);
    CHECK(bench.of_part(moved, "W4") == Approx(bench.of_part(at_rest, "W4")).margin(0.02));
}

TEST_CASE("open at one time and whole at another is a fault that comes and goes, told or not") {
    Bench bench;
    const std::vector<Measured> both{bench.read("M1:1", "X1.b:4", 238), bench.read("M1:1", "X1.b:4", 0.3),
                                     bench.read("M1:1", "X1.b:4", 239), bench.read("M1:1", "X1.b:4", 0.3)};
    for (const bool told : {true, false}) {
        const Belief belief = infer(bench.predictor, {.measured = both, .comes_and_goes = told});
        CHECK(belief.comes_and_goes > 0.95);
        CHECK(bench.of_part(belief, "W4") > 0.9);
    }
    const Belief steady = infer(bench.predictor, {.measured = {both[0], both[2]}});
    CHECK(steady.comes_and_goes < 0.05);
    CHECK(bench.of_part(steady, "W4") > 0.9);
}

TEST_CASE("a contact that reads whole since it was apart is still the fault, and quiet") {
    Bench bench;
    const Situation since = bench.reseated("X1");
    const Belief belief =
        infer(bench.predictor,
              {.measured = {bench.read("X1.a:4", "DS:6", 0.2), bench.read("X1.b:4", "DS:6", 239),
                            bench.read("X1.b:4", "DS:6", 0.3, since), bench.read("M1:1", "DS:6", 0.3, since)},
               .now = since});
    CHECK(bench.quieted(belief) > 0.9);
    CHECK(bench.of_part(belief, "X1") > 0.9);
    CHECK(nothing_wrong(belief, bench.harness) < 0.05);
}

TEST_CASE("reseating quiets contacts and no wire") {
    Bench bench;
    const Situation since = bench.reseated("X1");
    // The same, but the open lies in the wire beyond X1 and reads so before and after.
    const Belief belief = infer(
        bench.predictor, {.measured = {bench.read("X1.b:4", "DS:6", 0.3), bench.read("M1:1", "DS:6", 239),
                                       bench.read("M1:1", "DS:6", 239, since)},
                          .now = since});
    CHECK(bench.quieted(belief) < 0.01);
    CHECK(bench.of_part(belief, "W4") > 0.9);
    const Explanation cut{.faults = {fault_named(bench.harness, "W4:open-h")}, .reseat_cured = true};
    CHECK(remaining(bench.harness, cut, bench.reseated("X1")).size() == 1);
}

TEST_CASE("a repair by reseating mends contacts; a cut wire or a short in the same part stays") {
    const Harness& harness = small_chain();
    const auto left = [&](const std::string& fault, bool by_reseating) {
        const Fault own = fault_named(harness, fault);
        return unmended(harness, {.faults = {own}}, {.repaired = {{own.part, by_reseating}}}).size();
    };
    for (const char* fault : {"X1:receded-h@4", "X1:apart", "X1:joint-h@4", "M1:apart", "M1:joint-l@2",
                              "BP1:absent", "T1:receded-h@1"}) {
        INFO(fault);
        CHECK(left(fault, true) == 0);
        CHECK(left(fault, false) == 0);
    }
    for (const char* fault : {"W4:open-h", "W4:joint-l", "S1:open-l@W2", "S1:joint-h@W1", "X1:short",
                              "X1:ground-h", "M1:through-h", "T1:missing", "M1:extra"}) {
        INFO(fault);
        CHECK(left(fault, true) == 1);
        CHECK(left(fault, false) == 0);
    }
}

TEST_CASE("after a reseat a short in the part is as likely as before, after a new part it is not") {
    Bench bench;
    const auto still = [&](bool by_reseating) {
        const Belief belief = infer(bench.predictor, {.measured = {bench.read("DS:6", "ground", 0.4)},
                                                      .looked = {{2, bench.part("X1"), true, {}}},
                                                      .now = bench.repaired("X1", by_reseating)});
        return bench.of_fault(belief, "X1:ground-h");
    };
    CHECK(still(true) > 0.85);
    CHECK(still(false) < 0.15);  // a repair fails with a chance of 0.1
}
