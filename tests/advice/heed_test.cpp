// What was done held against what was advised, and what leaving the advice cost.
#include "halfsplit/advice/review.hpp"

#include "support/catch.hpp"
#include "support/reviews.hpp"
#include "support/sample_jobs.hpp"

using namespace halfsplit;
using namespace halfsplit::advice;
using test::detour;
using test::JobWriter;
using test::review_of;
using test::step;

TEST_CASE("a detour that the advice had listed costs what the advice said") {
    const Review review = review_of(test::job_with_a_repair_that_did_not_cure());
    const Detour* listed = detour(review, 23);
    REQUIRE(listed);
    CHECK(listed->basis == Detour::Basis::Alternative);
    CHECK(listed->more_minutes == 4);
    CHECK(listed->advice == 22);
    CHECK(listed->advised == "M1:3 to DS:6");
    CHECK(listed->done == "M1:1 to DS:6");
    CHECK_FALSE(listed->found_it);
    CHECK(step(review, 23).heed == Heed::Detour);
}

// Minutes from tests/data/small_chain.json.
TEST_CASE("any other detour costs the difference in labour, from where the advice was given") {
    const Review review = review_of(test::job_with_a_repair_that_did_not_cure());
    const Detour* at_the_socket = detour(review, 6);
    REQUIRE(at_the_socket);
    CHECK(at_the_socket->basis == Detour::Basis::Labour);
    CHECK(at_the_socket->more_minutes == Approx(0.5 - 13));  // half a minute at the socket, advised: 13
    const Detour* look = detour(review, 29);
    REQUIRE(look);
    CHECK(look->basis == Detour::Basis::Labour);
    CHECK(look->more_minutes == Approx(4 - 1));  // 4 to look at X2, place and covers as they were; advised: 1
    CHECK(look->found_it);
    const Review open = review_of(test::job_left_open());
    const Detour* behind_covers = detour(open, 20);
    REQUIRE(behind_covers);
    CHECK(behind_covers->basis == Detour::Basis::Labour);
    CHECK(behind_covers->more_minutes ==
          Approx(3 + 24 + 24 + 3 - 28));  // travel, seat, trim, look; advised: 28
    CHECK(review.detours.size() == 3);
    CHECK(open.detours.size() == 1);
}

TEST_CASE("where both leads are carried about, the covers before both have to be off") {
    JobWriter job;
    test::begin(job);
    job.advise(test::read_advice("X1.a:4", "DS:6", 13, 47, 118));
    const auto reading = job.read(60, "X1.b:4", "T1:1", 0.3);
    const Review review = review_of(job);
    REQUIRE(detour(review, reading));
    CHECK(detour(review, reading)->more_minutes ==
          Approx(12 + 24 + 24 + 1 - 13));  // kick, seat, trim, reading
}

TEST_CASE("a detour to something the harness does not have has no known cost") {
    JobWriter job;
    test::begin(job);
    job.advise(test::read_advice("X1.a:4", "DS:6", 13, 47, 118));
    const auto look = job.enter(3, job::Seen{"X77", job::Verdict::Sound, ""});
    const Review review = review_of(job);
    REQUIRE(detour(review, look));
    CHECK(detour(review, look)->basis == Detour::Basis::Unknown);
    CHECK(step(review, look).in_words.find("X77") != std::string::npos);
    CHECK_FALSE(step(review, look).told);
}

TEST_CASE("either lead may be the red one") {
    JobWriter job;
    test::begin(job);
    const auto advice = job.advise(test::read_advice("X1.a:4", "DS:6", 13, 47, 118));
    const auto reading = job.read(9, "DS:6", "X1.a:4", 0.1);
    const Review review = review_of(job);
    CHECK(step(review, reading).heed == Heed::Followed);
    CHECK(step(review, reading).advice == advice);
    CHECK(review.detours.empty());
}

TEST_CASE("an advice that has been answered is not held against what comes after") {
    JobWriter job;
    test::begin(job);
    job.advise(test::read_advice("X1.a:4", "DS:6", 13, 47, 118));
    job.read(9, "X1.a:4", "DS:6", 0.1);
    const auto unasked = job.read(2, "X1.b:4", "DS:6", 0.1);
    const Review review = review_of(job);
    CHECK(step(review, unasked).heed == Heed::NoAdvice);
    CHECK(step(review, unasked).advice == 0);
    CHECK(review.detours.empty());
}

TEST_CASE("after an undo the advice stands again") {
    JobWriter job;
    test::begin(job);
    job.advise(test::read_advice("X1.a:4", "DS:6", 13, 47, 118));
    const auto elsewhere = job.read(9, "X1.a:5", "DS:14", 0.1);
    job.enter(1, job::Undo{elsewhere});
    const auto as_advised = job.read(1, "X1.a:4", "DS:6", 0.1);
    const Review review = review_of(job);
    CHECK(step(review, as_advised).heed == Heed::Followed);
    REQUIRE(detour(review, elsewhere));
    CHECK_FALSE(detour(review, elsewhere)->counts);
}

TEST_CASE("a reading while a repair or a proof is advised is no detour") {
    JobWriter job;
    test::begin(job);
    job.enter(3, job::Seen{"X1", job::Verdict::Faulty, ""});
    job.advise(test::step_advice(Action::Repair, "X1"));
    const auto reading = job.read(9, "X1.a:4", "DS:6", 0.1);
    const Review review = review_of(job);
    CHECK(step(review, reading).heed == Heed::OtherStep);
    CHECK(step(review, reading).advised == "repair X1");
    CHECK(review.detours.empty());
}

TEST_CASE("an advice that cannot be read is told and passed over") {
    JobWriter job;
    test::begin(job);
    job.enter(0, job::Recommended{"{\"action\":\"dance\"}"});
    const auto reading = job.read(9, "X1.a:4", "DS:6", 0.1);
    const Review review = review_of(job);
    REQUIRE(review.notices.size() == 1);
    CHECK(review.notices[0] == "The advice in record 5 cannot be read.");
    CHECK(step(review, reading).heed == Heed::NoAdvice);
}
