// Readings that were repeated, pointless, doubted, undone or amended.
#include "halfsplit/advice/review.hpp"

#include "support/catch.hpp"
#include "support/reviews.hpp"
#include "support/sample_jobs.hpp"

#include <cmath>
#include <limits>

using namespace halfsplit;
using namespace halfsplit::advice;
using test::contradiction;
using test::JobWriter;
using test::review_of;
using test::step;

namespace {

constexpr double open_line = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("a reading is repeated when the same tips meet the same circuit, either way round") {
    JobWriter job;
    test::begin(job);
    const auto first = job.read(9, "X1.b:4", "DS:6", 0.2);
    const auto reversed = job.read(1, "DS:6", "X1.b:4", 0.2);
    const auto other_line = job.read(1, "X1.b:5", "DS:14", 0.2);
    const auto moved =
        job.enter(1, job::Reading{.red = "X1.b:4", .black = "DS:6", .value = 0.2, .moved = true});
    job.enter(1, job::PlugChange{.part = "GW", .plugged = false});
    const auto unplugged = job.read(1, "X1.b:4", "DS:6", 0.2);
    job.enter(1, job::PlugChange{.part = "GW", .plugged = true});
    const auto plugged_again = job.read(1, "X1.b:4", "DS:6", 0.2);
    job.enter(1, job::Repair{"X1", job::RepairAction::Cleaned, ""});
    const auto repaired = job.read(1, "X1.b:4", "DS:6", 0.2);
    const Review review = review_of(job);
    CHECK(step(review, first).repeat_of == 0);
    CHECK(step(review, reversed).repeat_of == first);
    CHECK(step(review, other_line).repeat_of == 0);
    CHECK(step(review, moved).repeat_of == 0);
    CHECK(step(review, unplugged).repeat_of == 0);
    CHECK(step(review, plugged_again).repeat_of == 0);  // reseating may have cured
    CHECK(step(review, repaired).repeat_of == 0);
}

TEST_CASE("what was never read is not repeated, and neither is what was undone before") {
    JobWriter job;
    test::begin(job);
    job.enter(9, job::Reading{.red = "X1.b:4", .black = "DS:6", .outcome = job::Outcome::CouldNotReach});
    const auto undone = job.read(1, "X1.b:4", "DS:6", open_line);
    job.enter(1, job::Undo{undone});
    const auto reading = job.read(1, "X1.b:4", "DS:6", 0.2);
    const Review review = review_of(job);
    CHECK(step(review, undone).repeat_of == 0);
    CHECK(step(review, reading).repeat_of == 0);
}

TEST_CASE("a look is repeated when no repair came in between") {
    JobWriter job;
    test::begin(job);
    const auto first = job.enter(9, job::Seen{"X1", job::Verdict::Sound, ""});
    const auto again = job.enter(1, job::Seen{"X1", job::Verdict::Sound, ""});
    job.enter(1, job::Repair{"X1", job::RepairAction::Cleaned, ""});
    const auto after_repair = job.enter(1, job::Seen{"X1", job::Verdict::Sound, ""});
    const Review review = review_of(job);
    CHECK(step(review, again).repeat_of == first);
    CHECK(step(review, after_repair).repeat_of == 0);
}

TEST_CASE("a reading is pointless when it tells next to nothing and moves no suspicion") {
    const Review review = review_of(test::job_left_open());
    CHECK(step(review, 14).pointless);  // the same wire a second time
    for (const ReviewStep& each : review.steps) {
        if (!each.pointless) continue;
        REQUIRE(each.told);
        CHECK(std::abs(each.told->bits) < 0.02);
        CHECK(each.told->moved < 0.01);
    }
    const Review cured = review_of(test::job_with_a_repair_that_did_not_cure());
    CHECK_FALSE(step(cured, 8).pointless);
    CHECK_FALSE(step(cured, 27).pointless);
}

TEST_CASE("the look that saw the fault was called pointless where the readings had been sure") {
    JobWriter job;
    test::begin(job);
    job.read(9, "X1.a:4", "DS:6", 0.2);
    job.read(1, "X1.a:5", "DS:14", 0.2);
    job.read(1, "X1.b:5", "DS:14", 0.2);
    job.read(1, "X1.b:4", "DS:6", 240);
    const auto look = job.enter(1, job::Seen{"X1", job::Verdict::Faulty, "green pin"});
    const auto again = job.read(1, "X1.b:5", "DS:14", 0.2);
    const Review review = review_of(job);
    REQUIRE(step(review, look).told);
    CHECK(std::abs(step(review, look).told->bits) < pointless_bits);
    CHECK(step(review, look).told->moved < pointless_move);
    CHECK_FALSE(step(review, look).pointless);
    CHECK(step(review, again).pointless);
}

TEST_CASE(
    "volts, and what could not be reached, tell nothing that can be weighed and are not called pointless") {
    const Review review = review_of(test::job_left_open());
    for (const job::Sequence sequence : {15U, 20U, 21U}) {
        CHECK_FALSE(step(review, sequence).told);
        CHECK_FALSE(step(review, sequence).pointless);
    }
}

TEST_CASE("a bad contact that later readings speak against is told with the record it did not fit from") {
    const Review review = review_of(test::job_with_a_repair_that_did_not_cure());
    REQUIRE(review.contradictions.size() == 1);
    const Contradiction& slip = review.contradictions[0];
    CHECK(slip.doubt.sequence == 20);
    CHECK(slip.since == 25);
    CHECK(slip.chance_at_most > 0.9);
    REQUIRE(slip.at_end);
    CHECK(*slip.at_end > contradicts);
    CHECK(slip.reread_by == 25);
    CHECK_FALSE(unsettled(slip));
    REQUIRE_FALSE(slip.doubt.slips.empty());
    CHECK(slip.doubt.slips[0].find("bad probe contact") != std::string::npos);
}

TEST_CASE("a doubted reading that was undone no longer counts; one that was left standing is unsettled") {
    const Review review = review_of(test::job_left_open());
    const Contradiction* undone = contradiction(review, 6);
    REQUIRE(undone);
    CHECK(undone->since == 6);
    CHECK(undone->undone_by == 10);
    CHECK_FALSE(undone->at_end);
    CHECK_FALSE(unsettled(*undone));
    const Contradiction* standing = contradiction(review, 22);
    REQUIRE(standing);
    CHECK(unsettled(*standing));
}

TEST_CASE("a doubted reading that was amended to what it was fits in the end") {
    JobWriter job;
    test::begin(job);
    const auto typed = job.read(9, "X1.a:4", "DS:6", open_line);
    const auto amend = job.amend(1, typed, job::Reading{.red = "X1.a:4", .black = "DS:6", .value = 0.1});
    const Review review = review_of(job);
    const Contradiction* doubted = contradiction(review, typed);
    REQUIRE(doubted);
    CHECK(doubted->amended_by == amend);
    REQUIRE(doubted->at_end);
    CHECK(*doubted->at_end < 0.1);
    CHECK_FALSE(unsettled(*doubted));
}

TEST_CASE("undone and amended records stay, with what undid or amended them") {
    const Review review = review_of(test::job_left_open());
    CHECK_FALSE(step(review, 6).counts);
    CHECK(step(review, 6).undone_by == 10);
    CHECK(step(review, 7).implied);  // the cover that had to be off goes with the reading
    CHECK_FALSE(step(review, 7).counts);
    CHECK(step(review, 7).undone_by == 10);
    CHECK(step(review, 8).counts);
    CHECK(step(review, 12).counts);
    CHECK(step(review, 12).amended_by == 13);
    CHECK(step(review, 12).in_words.find("1.4 ohm") != std::string::npos);
    CHECK(step(review, 12).amended_to.find("0.1 ohm") != std::string::npos);
    CHECK(step(review, 13).amended_by == 0);
}

TEST_CASE("an undo that was undone leaves no mark") {
    JobWriter job;
    test::begin(job);
    const auto reading = job.read(9, "X1.a:4", "DS:6", 0.1);
    const auto undo = job.enter(1, job::Undo{reading});
    const auto redo = job.enter(1, job::Undo{undo});
    const Review review = review_of(job);
    CHECK(step(review, reading).counts);
    CHECK(step(review, reading).undone_by == 0);
    CHECK_FALSE(step(review, undo).counts);
    CHECK(step(review, undo).undone_by == redo);
}
