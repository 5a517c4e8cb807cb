// A belief carried on from the one before is the belief worked out anew, to the last bit, whatever came and
// whatever was taken back in between.
#include "diagnosis/ledger.hpp"

#include "halfsplit/diagnosis/belief.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/random_harness.hpp"

#include <cmath>

using namespace halfsplit::diagnosis;
using namespace halfsplit::test;
using halfsplit::harness::Harness;
using halfsplit::harness::Index;

namespace {

// Evidence that need not make sense, as it comes and as it is taken back.
class Entries {
  public:
    Entries(const Harness& harness, std::uint64_t seed) : harness_(harness), dice_(seed) {}

    const Evidence& next() {
        const std::size_t kind = dice_.below(12);
        if (kind < 6) add_reading();
        if (kind == 6) evidence_.looked.push_back({0, part(), dice_.chance(30), evidence_.now});
        if (kind == 7) evidence_.scanned.push_back({0, {{part()}, {part()}}, evidence_.now});
        if (kind == 8) evidence_.now.repaired.push_back({part(), dice_.chance(30)});
        if (kind == 9) evidence_.proved.push_back({dice_.chance(50), evidence_.now});
        if (kind == 10) evidence_.now.apart = {part()};
        if (kind == 11 && !evidence_.measured.empty()) take_back();
        return evidence_;
    }

  private:
    Index part() { return static_cast<Index>(dice_.below(harness_.parts.size())); }
    Contact contact() { return at(static_cast<Index>(dice_.below(harness_.terminals.size()))); }

    void add_reading() {
        Measured measured{.tips = {contact(), contact()}, .situation = evidence_.now};
        measured.provoked = dice_.chance(20);
        if (dice_.chance(30)) measured.look_alikes.push_back({dice_.chance(50), contact().terminal});
        const auto shown = static_cast<Shown>(dice_.below(3));
        measured.observation = {.shown = shown, .ohm = shown == Shown::Ohm ? ohm() : 0};
        if (dice_.chance(20) && !evidence_.measured.empty()) measured.tips = evidence_.measured.back().tips;
        evidence_.measured.push_back(measured);
    }
    double ohm() { return dice_.chance(30) ? INFINITY : static_cast<double>(dice_.below(3000)) / 10; }
    void take_back() {
        const auto which = static_cast<std::ptrdiff_t>(dice_.below(evidence_.measured.size()));
        evidence_.measured.erase(evidence_.measured.begin() + which);
    }

    const Harness& harness_;
    Random dice_;
    Evidence evidence_;
};

bool same(const Belief& one, const Belief& other) {
    bool explanations = one.explanations.size() == other.explanations.size();
    for (std::size_t i = 0; explanations && i < one.explanations.size(); ++i) {
        explanations = one.explanations[i].faults == other.explanations[i].faults &&
                       one.explanations[i].repair_failed == other.explanations[i].repair_failed;
    }
    return explanations && one.probability == other.probability && one.surprise == other.surprise &&
           one.wrong_wire == other.wrong_wire && one.comes_and_goes == other.comes_and_goes &&
           one.pairs == other.pairs;
}

}  // namespace

TEST_CASE("accounts stay open while the evidence goes on, and only then") {
    Ledger ledger;
    const auto kept = [&](const Evidence& evidence, const halfsplit::harness::Assumptions& rates) {
        ledger.open(evidence, rates);
        const bool found = ledger.of(7).gain == 3;
        ledger.of(7).gain = 3;
        return found;
    };
    halfsplit::harness::Assumptions rates;
    Evidence evidence;
    CHECK_FALSE(kept(evidence, rates));
    CHECK(kept(evidence, rates));
    evidence.measured.resize(2);
    CHECK(kept(evidence, rates));
    evidence.looked.resize(1);
    evidence.measured[1].sequence = 5;
    CHECK_FALSE(kept(evidence, rates));  // that reading was another one
    CHECK(kept(evidence, rates));
    evidence.looked.clear();
    CHECK_FALSE(kept(evidence, rates));
    evidence.comes_and_goes = true;
    CHECK_FALSE(kept(evidence, rates));
    rates.worked_on_factor += 1;
    CHECK_FALSE(kept(evidence, rates));
    CHECK(kept(evidence, rates));
}

TEST_CASE("a belief carried on is the belief worked out anew, to the last bit") {
    const Harness& harness = small_chain();
    std::size_t pairs = 0, compared = 0;
    for (std::uint64_t seed = 1; seed <= 4; ++seed) {
        Predictor carried_on(harness, 0);
        Entries entries(harness, seed);
        for (int step = 0; step < 14; ++step) {
            const Evidence& evidence = entries.next();
            const Belief belief = infer(carried_on, evidence);
            Predictor anew(harness, 0);
            INFO("seed " << seed << ", step " << step);
            REQUIRE(same(belief, infer(anew, evidence)));
            pairs += belief.pairs ? 1 : 0;
            ++compared;
        }
    }
    REQUIRE(compared == 56);
    REQUIRE(pairs > 10);
    REQUIRE(pairs < compared);
}
