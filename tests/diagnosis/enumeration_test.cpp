// The belief against enumeration: every single fault and every two faults of small buses listed, solved by
// plain elimination and weighed by a likelihood written a second time (support/enumeration.hpp).
#include "support/enumeration.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/diagnosis/belief.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

using namespace halfsplit::diagnosis;
using namespace halfsplit::test;
using halfsplit::harness::Harness;

namespace {

constexpr double ol = std::numeric_limits<double>::infinity();

struct Story {
    std::string name;
    Evidence evidence;
    bool pairs = false;  // whether two faults have to be weighed
};

// A small bus, and readings on it told in few words.
class Bus {
  public:
    explicit Bus(const std::string& network)
        : harness_(harness_from("tests/data/networks/" + network + ".json")) {}

    const Harness& harness() const { return harness_; }
    halfsplit::harness::Index part(const std::string& id) const { return find_part(harness_, id); }

    Measured read(const std::string& red, const std::string& black, double ohm,
                  const Situation& situation = {}) const {
        return taken(red, black, {.shown = Shown::Ohm, .ohm = ohm}, situation);
    }
    Measured taken(const std::string& red, const std::string& black, const Observation& seen,
                   const Situation& situation = {}) const {
        const Tips where = tips(harness_, red, black);
        return {.tips = where,
                .observation = seen,
                .situation = situation,
                .look_alikes = halfsplit::advice::look_alikes(harness_, where)};
    }
    // What a truthful meter shows, to three digits.
    Measured truly(const std::string& red, const std::string& black, const std::vector<std::string>& faults,
                   const Situation& situation = {}) const {
        Predictor predictor(harness_, 0);
        Explanation explanation;
        for (const std::string& each : faults) explanation.faults.push_back(fault_named(harness_, each));
        const double ohm = predictor.ohms(explanation, situation, {tips(harness_, red, black)}).front();
        if (!std::isfinite(ohm)) return read(red, black, ohm, situation);
        const double digit = std::pow(10.0, std::floor(std::log10(std::max(ohm, 1.0))) - 2);
        return read(red, black, std::round(ohm / digit) * digit, situation);
    }

  private:
    Harness harness_;
};

// Of two faults: what tells an explanation from another one, but for the ohms.
auto but_for_ohms(Explanation pair) {
    for (Fault& fault : pair.faults) fault.ohm = 0;
    std::sort(pair.faults.begin(), pair.faults.end(),
              [](const Fault& one, const Fault& other) { return one.part < other.part; });
    return pair;
}

// The explanations of the belief, with priors from the enumeration. Pairs that come with each of their ohms
// share the prior of all.
std::vector<Explanation> same_explanations(const Belief& belief, const Enumeration& enumeration) {
    const auto singles = enumeration.singles();
    std::vector<Explanation> result = belief.explanations;
    const auto alike = [&](const Explanation& pair) {
        return std::count_if(belief.explanations.begin() + static_cast<std::ptrdiff_t>(singles.size()),
                             belief.explanations.end(), [&](const Explanation& other) {
                                 return other.variant == pair.variant &&
                                        other.repair_failed == pair.repair_failed &&
                                        but_for_ohms(other).faults == but_for_ohms(pair).faults;
                             });
    };
    for (std::size_t i = 0; i < result.size(); ++i) {
        if (i >= singles.size()) {
            result[i].prior =
                enumeration.prior_of_names(result[i]) / static_cast<double>(alike(belief.explanations[i]));
            continue;
        }
        // In the same order.
        REQUIRE(result[i].variant == singles[i].variant);
        REQUIRE(result[i].faults == singles[i].faults);
        REQUIRE(result[i].repair_failed == singles[i].repair_failed);
        REQUIRE(result[i].reseat_cured == singles[i].reseat_cured);
        result[i].prior = singles[i].prior;
    }
    return result;
}

double farthest(const std::vector<double>& one, const std::vector<double>& other) {
    REQUIRE(one.size() == other.size());
    double result = 0;
    for (std::size_t i = 0; i < one.size(); ++i) result = std::max(result, std::abs(one[i] - other[i]));
    return result;
}

// Explanation by explanation, over the same explanations.
void agrees(const Belief& belief, const PlainBelief& plain, const Enumeration& enumeration,
            const Harness& harness) {
    constexpr double exactly = 1e-6;
    CHECK(farthest(belief.probability, plain.probability) < exactly);
    CHECK(farthest(belief.surprise, plain.surprise) < exactly);
    CHECK(farthest(by_part(belief, harness), enumeration.by_part(plain)) < exactly);
    CHECK(belief.comes_and_goes == Approx(plain.comes_and_goes).margin(exactly));
    for (std::size_t m = 0; m < plain.wrong_wire.size(); ++m)
        CHECK(farthest(belief.wrong_wire[m], plain.wrong_wire[m]) < exactly);
}

// How far the belief is from Bayes over every single fault and every two: what is left out on purpose. Where
// single faults carry all readings, two are not weighed at all. Where they are weighed, the ohms that fit
// best stand for all ohms of a fault, and faults that carry no reading are paired with the best few only.
struct Deviation {
    double of_faults = 0;  // total variation between sets of faults
    double of_parts = 0;   // the farthest part
};

Deviation deviation(const Belief& belief, const Enumeration& enumeration, const Harness& harness) {
    auto all = enumeration.singles();
    const auto pairs = enumeration.pairs();
    all.insert(all.end(), pairs.begin(), pairs.end());
    const PlainBelief plain = enumeration.weigh(std::move(all));
    return {total_variation(enumeration.by_names(belief.explanations, belief.probability),
                            enumeration.by_names(plain.explanations, plain.probability)),
            farthest(by_part(belief, harness), enumeration.by_part(plain))};
}

void check(const Bus& bus, const std::vector<Story>& stories) {
    // Measured over all stories below: 0.032 and 0.018 with single faults alone, 0.016 and 0.007 with pairs.
    constexpr Deviation of_singles{0.035, 0.02}, of_pairs{0.02, 0.01};
    Predictor predictor(bus.harness(), 0);
    for (const Story& story : stories) {
        INFO(story.name);
        const Enumeration enumeration(bus.harness(), story.evidence);
        const Belief belief = infer(predictor, story.evidence);
        CHECK(belief.pairs == story.pairs);
        agrees(belief, enumeration.weigh(same_explanations(belief, enumeration)), enumeration, bus.harness());
        const Deviation away = deviation(belief, enumeration, bus.harness());
        const Deviation& most = story.pairs ? of_pairs : of_singles;
        CHECK(away.of_faults < most.of_faults);
        CHECK(away.of_parts < most.of_parts);
    }
}

}  // namespace

TEST_CASE("on a chain with a terminator at each end the belief is what enumeration gives", "[long]") {
    const Bus bus("chain");
    const Situation t2_off{.apart = {bus.part("T2")}};
    const Situation x1_cleaned{.repaired = {{bus.part("X1")}}};
    const Situation x1_reseated{.reseated = {bus.part("X1")}};
    Measured moved = bus.read("X1.b:4", "T1:1", 0.4);
    moved.provoked = true;
    check(bus, {
                   {"nothing read", {}},
                   {"120 ohm at an end", {.measured = {bus.read("T1:1", "T1:2", 120)}}},
                   {"an open in line H, bracketed",
                    {.measured = {bus.read("T1:1", "T1:2", 119.4), bus.read("X1.a:4", "T1:1", 0.3),
                                  bus.read("M1:1", "T1:1", 238)}}},
                   {"a joint between the figures of the grid",
                    {.measured = {bus.read("T1:1", "T1:2", 80.4), bus.read("M1:3", "T1:1", 88)}}},
                   {"line to ground", {.measured = {bus.read("T1:1", "ground", 0.6)}}},
                   {"OL with a terminator off", {.measured = {bus.read("M1:1", "M1:2", ol, t2_off)}}},
                   {"beep and no beep",
                    {.measured = {bus.taken("X1.a:4", "T1:1", {.shown = Shown::Closed}),
                                  bus.taken("M1:3", "T1:1", {.shown = Shown::Open})}}},
                   {"one open that the rest of the readings speaks against",
                    {.measured = {bus.read("M1:1", "T1:1", 0.3), bus.read("M1:2", "T1:2", 0.3),
                                  bus.read("X1.a:4", "T1:1", ol)}},
                    true},
                   {"on the wire beside",
                    {.measured = {bus.read("X1.b:4", "T1:1", 60.1), bus.read("M1:1", "T1:1", 0.3),
                                  bus.read("T1:1", "T1:2", 60.1)}},
                    true},
                   {"told that it comes and goes",
                    {.measured = {bus.read("T1:1", "T1:2", 60.2), moved, bus.read("M1:3", "T1:1", 0.4)},
                     .comes_and_goes = true}},
                   {"open once, closed ever after",
                    {.measured = {bus.read("M1:1", "T1:1", 240), bus.read("M1:1", "T1:1", 0.3),
                                  bus.read("T1:1", "T1:2", 60.1)}},
                    true},
                   {"reseated, and quiet since",
                    {.measured = {bus.read("M1:1", "T1:1", 240), bus.read("M1:1", "T1:1", 0.3, x1_reseated)},
                     .now = x1_reseated}},
                   {"cleaned, and not cured",
                    {.measured = {bus.truly("X1.b:4", "T1:1", {"X1:receded-h@4", "W3:open-l"}),
                                  bus.read("X1.b:4", "T1:1", 0.2, x1_cleaned)},
                     .looked = {{2, bus.part("X1"), true, {}}},
                     .proved = {{false, x1_cleaned}},
                     .now = x1_cleaned},
                    true},
                   {"both lines open at different places",
                    {.measured = {bus.truly("X1.a:4", "T1:1", {"X1:receded-h@4", "W3:open-l"}),
                                  bus.truly("X1.b:4", "T1:1", {"X1:receded-h@4", "W3:open-l"}),
                                  bus.truly("M1:4", "T1:2", {"X1:receded-h@4", "W3:open-l"}),
                                  bus.truly("T2:2", "T1:2", {"X1:receded-h@4", "W3:open-l"})}},
                    true},
               });
}

TEST_CASE("with a stub on a splice the belief is what enumeration gives", "[long]") {
    const Bus bus("stub");
    const Situation m1_off{.apart = {bus.part("M1")}};
    check(bus,
          {
              {"65 ohm at the socket", {.measured = {bus.read("DS:6", "DS:14", 65)}}},
              {"an open of both lines in the stub",
               {.measured = {bus.truly("DS:6", "DS:14", {"W3:open"}), bus.truly("M1:1", "DS:6", {"W3:open"}),
                             bus.truly("M1:2", "DS:14", {"W3:open"})}}},
              {"a leg of the splice, with the module off",
               {.measured = {bus.truly("T1:1", "T1:2", {"S1:open-l@W2"}, m1_off),
                             bus.truly("DS:6", "DS:14", {"S1:open-l@W2"}, m1_off),
                             bus.truly("T1:2", "DS:14", {"S1:open-l@W2"}, m1_off)}}},
              {"a short, and line to ground",
               {.measured = {bus.read("DS:6", "DS:14", 0.5), bus.read("DS:6", "ground", 6200)}}},
              {"line to supply",
               {.measured = {bus.read("DS:14", "supply", 5), bus.read("DS:6", "supply", 64)}}},
              {"three readings that do not go together",
               {.measured = {bus.read("DS:6", "DS:14", 60.1), bus.read("T1:1", "DS:6", 700),
                             bus.read("M1:1", "DS:6", ol)}},
               true},
          });
}

TEST_CASE("in a ring the belief is what enumeration gives", "[long]") {
    const Bus bus("ring");
    check(bus, {
                   {"60 ohm and closed all over",
                    {.measured = {bus.read("T1:1", "T1:2", 60), bus.read("M1:1", "T1:1", 0.3)}}},
                   {"a splice seen faulty, and cured",
                    {.measured = {bus.read("T1:1", "T1:2", 119.2)},
                     .looked = {{2, bus.part("S2"), true, {}}},
                     .proved = {{true, {.repaired = {{bus.part("S2")}}}}},
                     .now = {.repaired = {{bus.part("S2")}}}},
                    true},
               });
}

TEST_CASE("with one terminator, and a module that may be there, the belief is what enumeration gives",
          "[long]") {
    const Bus bus("one_end");
    check(bus,
          {
              {"120 ohm, which is right here", {.measured = {bus.read("T1:1", "T1:2", 119.5)}}},
              {"OL beyond the connector",
               {.measured = {bus.truly("M1:1", "M1:2", {"X1:receded-l@2"}),
                             bus.truly("X1.a:1", "X1.a:2", {"X1:receded-l@2"})}}},
              {"a reading at the module that may be there", {.measured = {bus.read("M2:1", "M2:2", 119.5)}}},
              {"open once, and the module is there",
               {.measured = {bus.read("M1:1", "T1:1", ol), bus.read("M1:1", "T1:1", 0.3),
                             bus.read("M2:1", "M2:2", 120)}},
               true},
          });
}

TEST_CASE("two faults that show only together, one in each half of a ring, are found", "[long]") {
    const Bus bus("ring");
    const auto read_across = [&](const std::string& name, const std::vector<std::string>& faults) {
        return Story{name,
                     {.measured = {bus.truly("T1:1", "T1:2", faults), bus.truly("M1:1", "T1:1", faults),
                                   bus.truly("S2:H", "S1:H", faults), bus.truly("S2:L", "S1:L", faults)}},
                     true};
    };
    check(bus, {read_across("two opens of one line", {"W2:open-h", "W3:open-h"}),
                read_across("an open, and a bad joint", {"W2:joint-l", "S2:open-l@W3"}),
                read_across("both lines open in both halves", {"W2:open", "W3:open"})});
}
