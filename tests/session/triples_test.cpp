// Triples of a random harness, a fault in it and a technician, each a whole hunt from the first question to
// the last cover. HALFSPLIT_TRIPLES sets how many are played, HALFSPLIT_WRONG_EYES how many by people who see
// wrong; docs/development/testing.md has what came of many.
#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/session/rehearsal.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/how_many.hpp"
#include "support/random_harness.hpp"

#include <algorithm>
#include <iostream>
#include <variant>

using namespace halfsplit;
using namespace halfsplit::test;
using halfsplit::session::MadeUp;
using halfsplit::session::Played;
using halfsplit::session::PlayOptions;
using halfsplit::session::Rehearsal;

namespace {

constexpr std::uint64_t usual_triples = 150, usual_wrong_eyes = 3;
// Of each fault: one technician who is always right, and some who slip as often as belief assumes.
constexpr std::uint64_t technicians = 4;

PlayOptions technician(std::uint64_t number, std::uint64_t seed) {
    if (number == 0) return {.seed = seed};
    return {.seed = seed, .slips = 0.03, .wrong_wires = 0.01};
}

// Misses a fault as often as belief assumes, and takes sound parts for faulty ten times as often.
PlayOptions with_wrong_eyes(std::uint64_t seed) {
    PlayOptions options = technician(1, seed);
    options.missed_faults = 0.05;
    options.false_alarms = 0.05;
    return options;
}

struct Found {
    std::uint64_t of = 0, found = 0;
    void add(bool was_found) {
        ++of;
        found += was_found ? 1 : 0;
    }
};

struct Tally {
    std::uint64_t triples = 0, readings = 0;
    Found slipping, wrong_eyes;
    std::uint64_t other_repairs = 0, wrong_causes = 0;  // hunts of wrong eyes with such
};

// Hunts on one harness, which share their first steps.
class Hunts {
  public:
    Hunts(std::uint64_t seed, Tally& tally)
        : seed_(seed),
          harness_(harness_from_text(random_harness_json(seed, {.most_points = 9}))),
          rehearsal_(harness_, 0),
          predictor_(harness_, 0),
          tally_(tally) {}

    void play() {
        for (const MadeUp& truth : rehearsal_.faults()) {
            INFO("harness " << seed_ << ", fault " << truth.name);
            play_careful(truth);
            for (std::uint64_t number = 1; number < technicians; ++number) play_slipping(truth, number);
            tally_.triples += technicians;
        }
    }

    // A triple from the very beginning: what was remembered of other hunts must not tell.
    void play_one_anew() {
        const std::vector<MadeUp> faults = rehearsal_.faults();
        const MadeUp& truth = faults[seed_ % faults.size()];
        INFO("harness " << seed_ << ", fault " << truth.name);
        Rehearsal fresh(harness_, 0);
        const PlayOptions slipping = technician(1, seed_);
        REQUIRE(fresh.play(truth, slipping).records == rehearsal_.play(truth, slipping).records);
    }

    void play_one_with_wrong_eyes() {
        const std::vector<MadeUp> faults = rehearsal_.faults();
        const MadeUp& truth = faults[(seed_ * 7) % faults.size()];
        INFO("harness " << seed_ << ", fault " << truth.name);
        const Played played = rehearsal_.play(truth, with_wrong_eyes(seed_));
        tally_.wrong_eyes.add(played.found);
        tally_.other_repairs += another_repaired(played.records, truth) ? 1 : 0;
        tally_.wrong_causes += another_called_cause(played.records, truth) ? 1 : 0;
    }

  private:
    void play_careful(const MadeUp& truth) {
        const Played played = rehearsal_.play(truth, technician(0, seed_));
        REQUIRE(played.found);
        const job::State state = job::replay(played.records);
        REQUIRE(state.closed);
        REQUIRE(state.covers_off.empty());
        require_truth_in_play(played.records, truth);
        require_no_other_proven(played.records, truth);
        tally_.readings += played.probes;
    }

    void play_slipping(const MadeUp& truth, std::uint64_t number) {
        const Played played = rehearsal_.play(truth, technician(number, seed_ * technicians + number));
        require_no_other_proven(played.records, truth);
        tally_.slipping.add(played.found);
        tally_.readings += played.probes;
    }

    bool is_true(const std::string& part, const MadeUp& truth) const {
        return std::any_of(truth.faults.begin(), truth.faults.end(), [&](const diagnosis::Fault& fault) {
            return harness_.parts[fault.part].id == part;
        });
    }

    void require_no_other_proven(const std::vector<job::Record>& records, const MadeUp& truth) {
        REQUIRE_FALSE(another_called_cause(records, truth));
    }

    // A review calls a repair the cause where it cured, or where all that is known at the end holds it for
    // all but certain.
    bool another_called_cause(const std::vector<job::Record>& records, const MadeUp& truth) const {
        if (!another_repaired(records, truth)) return false;
        const advice::Review review = advice::retrospect(records, harness_, 0);
        return std::any_of(review.repairs.begin(), review.repairs.end(), [&](const auto& repair) {
            return repair.cause && !is_true(repair.repair.part, truth);
        });
    }

    bool another_repaired(const std::vector<job::Record>& records, const MadeUp& truth) const {
        return std::any_of(records.begin(), records.end(), [&](const job::Record& record) {
            const auto* repair = std::get_if<job::Repair>(&record.event.body);
            return repair != nullptr && !is_true(repair->part, truth);
        });
    }

    // With all that was read before the first repair; every single reading is rehearsal_test.cpp's.
    void require_truth_in_play(const std::vector<job::Record>& records, const MadeUp& truth) {
        const auto repaired = std::find_if(records.begin(), records.end(), [](const job::Record& record) {
            return std::holds_alternative<job::Repair>(record.event.body) ||
                   std::holds_alternative<job::Seen>(record.event.body);
        });
        const auto belief =
            infer(predictor_, advice::evidence(harness_, 0, job::replay({records.begin(), repaired})));
        REQUIRE(by_part(belief, harness_)[truth.faults.front().part] > 1e-4);
    }

    std::uint64_t seed_;
    harness::Harness harness_;
    Rehearsal rehearsal_;
    diagnosis::Predictor predictor_;
    Tally& tally_;
};

void tell(const Tally& tally) {
    std::cout << tally.triples << " triples, " << tally.readings << " readings; with slips "
              << tally.slipping.found << " of " << tally.slipping.of << " found" << std::endl;
}

void tell_wrong_eyes(const Tally& tally) {
    std::cout << "with wrong eyes " << tally.wrong_eyes.found << " of " << tally.wrong_eyes.of
              << " found, in " << tally.other_repairs << " another part was repaired, in "
              << tally.wrong_causes << " called a cause" << std::endl;
}

}  // namespace

TEST_CASE("of many harnesses, faults and technicians the right part is found and no other called proven",
          "[long]") {
    const std::uint64_t wanted = how_many("HALFSPLIT_TRIPLES", usual_triples);
    const std::uint64_t first = how_many("HALFSPLIT_FIRST_HARNESS", 1);
    Tally tally;
    for (std::uint64_t seed = first; tally.triples < wanted; ++seed) {
        Hunts hunts(seed, tally);
        hunts.play();
        hunts.play_one_anew();
        if (wanted > usual_triples && seed % 10 == 0) tell(tally);
    }
    if (wanted > usual_triples) tell(tally);
    REQUIRE(tally.triples >= wanted);
    REQUIRE(static_cast<double>(tally.slipping.found) >= 0.99 * static_cast<double>(tally.slipping.of));
}

// After a repair in vain explanations of two faults are weighed, which takes its time: one hunt a harness.
TEST_CASE("technicians who see wrong find the right part too, and what they repaired in vain is no cause",
          "[long]") {
    const std::uint64_t wanted = how_many("HALFSPLIT_WRONG_EYES", usual_wrong_eyes);
    const std::uint64_t first = how_many("HALFSPLIT_FIRST_HARNESS", 1);
    Tally tally;
    for (std::uint64_t seed = first; tally.wrong_eyes.of < wanted; ++seed) {
        Hunts(seed, tally).play_one_with_wrong_eyes();
        if (wanted > usual_wrong_eyes && seed % 10 == 0) tell_wrong_eyes(tally);
    }
    if (wanted > usual_wrong_eyes) tell_wrong_eyes(tally);
    REQUIRE(tally.wrong_eyes.found >= wanted - wanted / 20);
    REQUIRE(tally.wrong_causes <= wanted / 20);
}
