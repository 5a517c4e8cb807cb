// Triples of a random harness, a fault in it and a technician, each a whole hunt from the first question to
// the last cover. HALFSPLIT_TRIPLES sets how many are played; docs/development/testing.md has what came of
// many.
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

constexpr std::uint64_t usual_triples = 150;
// Of each fault: one technician who is always right, and some who slip as often as belief assumes.
constexpr std::uint64_t technicians = 4;

PlayOptions technician(std::uint64_t number, std::uint64_t seed) {
    if (number == 0) return {.seed = seed};
    return {.seed = seed, .slips = 0.03, .wrong_wires = 0.01};
}

struct Tally {
    std::uint64_t triples = 0, slipping = 0, slipping_found = 0, readings = 0, other_repairs = 0;
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
        ++tally_.slipping;
        tally_.slipping_found += played.found ? 1 : 0;
        tally_.readings += played.probes;
    }

    bool is_true(const std::string& part, const MadeUp& truth) const {
        return std::any_of(truth.faults.begin(), truth.faults.end(), [&](const diagnosis::Fault& fault) {
            return harness_.parts[fault.part].id == part;
        });
    }

    // A review calls a repair the cause where it cured, or where the readings hold it for likelier than not.
    void require_no_other_proven(const std::vector<job::Record>& records, const MadeUp& truth) {
        const bool only_true = std::all_of(records.begin(), records.end(), [&](const job::Record& record) {
            const auto* repair = std::get_if<job::Repair>(&record.event.body);
            return repair == nullptr || is_true(repair->part, truth);
        });
        if (only_true) return;
        ++tally_.other_repairs;
        const advice::Review review = advice::retrospect(records, harness_, 0);
        for (const advice::ReviewedRepair& repair : review.repairs) {
            INFO("repaired " << repair.repair.part);
            REQUIRE((!repair.cause || is_true(repair.repair.part, truth)));
        }
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
              << tally.slipping_found << " of " << tally.slipping << " found; " << tally.other_repairs
              << " with a repair of another part" << std::endl;
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
    REQUIRE(static_cast<double>(tally.slipping_found) >= 0.99 * static_cast<double>(tally.slipping));
}
