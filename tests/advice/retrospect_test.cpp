// What a review says of a whole job: what each step told, the minutes, what is still open.
#include "halfsplit/advice/retrospect.hpp"

#include "halfsplit/base/finding.hpp"

#include "support/catch.hpp"
#include "support/reviews.hpp"
#include "support/sample_jobs.hpp"
#include "support/small_chain.hpp"

#include <algorithm>
#include <cmath>

using namespace halfsplit;
using namespace halfsplit::advice;
using test::JobWriter;
using test::review_of;
using test::step;

namespace {

// Shannon's entropy of where the fault is, worked out the long way.
double entropy_after(const std::vector<job::Record>& records, job::Sequence sequence) {
    const auto belief = test::belief_after(records, sequence);
    auto shares = diagnosis::by_part(belief, test::small_chain());
    shares.push_back(diagnosis::nothing_wrong(belief, test::small_chain()));
    double total = 0;
    for (const double share : shares) total += share;
    double bits = 0;
    for (const double share : shares)
        bits += share > 0 ? share / total * std::log(total / share) / std::log(2.0) : 0;
    return bits;
}

}  // namespace

TEST_CASE("what a step told is the entropy before it less the entropy after it, as could be known then") {
    for (const auto& records : {test::job_with_a_repair_that_did_not_cure(), test::job_left_open()}) {
        const Review review = review_of(records);
        std::size_t told = 0;
        for (const ReviewStep& each : review.steps) {
            if (!each.told) continue;
            ++told;
            CHECK(each.told->bits ==
                  Approx(entropy_after(records, each.sequence - 1) - entropy_after(records, each.sequence))
                      .margin(1e-9));
            REQUIRE(each.outlook);
        }
        CHECK(told >= 7);
    }
}

TEST_CASE("suspects left are the parts with a chance of one percent or more") {
    const auto records = test::job_with_a_repair_that_did_not_cure();
    const Review review = review_of(records);
    const auto by_part = diagnosis::by_part(test::belief_after(records, 8), test::small_chain());
    const auto left =
        std::count_if(by_part.begin(), by_part.end(), [](double chance) { return chance >= 0.01; });
    REQUIRE(left > 1);
    CHECK(step(review, 8).outlook->suspects == static_cast<std::size_t>(left));
    CHECK(step(review, 8).outlook->leading.size() == static_cast<std::size_t>(left));
    CHECK(step(review, 8).outlook->leading[0].part == "X1");
    CHECK(step(review, 8).outlook->leading[0].probability ==
          *std::max_element(by_part.begin(), by_part.end()));
}

TEST_CASE("the opening and the advice are no steps; all else is, undone or not") {
    const auto records = test::job_left_open();
    const Review review = review_of(records);
    std::size_t expected = 0;
    for (const job::Record& record : records) {
        const bool hidden = std::holds_alternative<job::Opened>(record.event.body) ||
                            std::holds_alternative<job::Recommended>(record.event.body);
        if (hidden) continue;
        ++expected;
        CHECK(step(review, record.sequence).event == record.event);
        CHECK(step(review, record.sequence).time == record.time);
    }
    CHECK(review.steps.size() == expected);
}

TEST_CASE("the minutes of the steps sum to what is billed, and pauses are left out") {
    for (const auto& records : {test::job_with_a_repair_that_did_not_cure(), test::job_left_open()}) {
        const Review review = review_of(records);
        double sum = 0;
        for (const ReviewStep& each : review.steps) sum += each.minutes;
        CHECK(sum == Approx(review.minutes.spent));
    }
    const Review review = review_of(test::job_with_a_repair_that_did_not_cure());
    CHECK(review.minutes.spent == Approx(120));  // 165 on the clock less 45 paused
    CHECK(review.minutes.away == Approx(45));
    CHECK(review.minutes.pauses == 1);
    CHECK(step(review, 17).minutes == 0);
    const Review entered = review_of(test::job_left_open());
    CHECK(entered.minutes.entered_by_hand == 1);
    CHECK(step(entered, 17).minutes == 25);  // entered; the clock said 30
    CHECK(entered.minutes.away == 0);
}

TEST_CASE("an undone record takes its entered minutes with it") {
    JobWriter job;
    test::begin(job);
    const auto remark = job.enter(3, job::Remark{"fetched a ladder"}, 40);
    const auto undo = job.enter(1, job::Undo{remark});
    const Review review = review_of(job);
    CHECK(step(review, remark).minutes == 40);
    CHECK(step(review, undo).minutes == Approx(-36));  // 4 on the clock since the safe state
    CHECK(review.minutes.spent == Approx(19));
    CHECK(review.minutes.entered_by_hand == 0);
}

TEST_CASE("time after a job was closed is away, like a pause") {
    JobWriter job;
    test::begin(job);
    job.enter(1, job::Closed{});
    job.enter(60, job::Remark{"the customer called"});
    const Review review = review_of(job);
    CHECK(review.minutes.spent == Approx(16));
    CHECK(review.minutes.away == Approx(60));
    CHECK(review.minutes.pauses == 0);
}

TEST_CASE("expected and worst minutes are those of the first advice that sent somebody to read or look") {
    const Review review = review_of(test::job_with_a_repair_that_did_not_cure());
    CHECK(review.minutes.first_advice == 5);
    CHECK(review.minutes.expected == 47);
    CHECK(review.minutes.worst == 118);
    CHECK(review.minutes.before_advice == Approx(15));
    REQUIRE(review.minutes.to_find);
    CHECK(*review.minutes.to_find ==
          Approx(73));  // record 29, the look that found the last cause, without the pause

    JobWriter job;
    test::begin(job);
    job.advise(test::step_advice(Action::SafeState));
    const Review without = review_of(job);
    CHECK(without.minutes.first_advice == 0);
    CHECK_FALSE(without.minutes.to_find);
}

TEST_CASE("a job left open tells what is off, apart, suspected, and what was advised last") {
    const Review review = review_of(test::job_left_open());
    CHECK_FALSE(review.open.closed);
    CHECK(review.open.paused);
    REQUIRE(review.open.covers_off.size() == 3);
    CHECK(review.open.covers_off[0].name == "kick panel");
    REQUIRE(review.open.parts_apart.size() == 1);
    CHECK(review.open.parts_apart[0].id == "T1");
    CHECK(review.open.suspects.size() == 5);
    CHECK(review.open.advised.empty());  // the look that was advised was answered by another

    JobWriter job;
    test::begin(job);
    job.advise(test::read_advice("X1.a:4", "DS:6", 13, 47, 118));
    CHECK(review_of(job).open.advised == "X1.a:4 to DS:6");
    job.enter(1, job::Closed{});
    CHECK(review_of(job).open.advised.empty());
}

TEST_CASE("the outlook at the end is what the adviser believes at the end") {
    for (const auto& records : {test::job_with_a_repair_that_did_not_cure(), test::job_left_open()}) {
        const Review review = review_of(records);
        const auto belief = test::belief_after(records, records.size());
        CHECK(review.open.outlook.nothing_wrong == diagnosis::nothing_wrong(belief, test::small_chain()));
        CHECK(review.open.outlook.two_faults == belief.pairs);
    }
}

TEST_CASE("a job that does not say what it is about cannot be reviewed, and the finding says why") {
    const auto id_of = [](const std::vector<job::Record>& records) {
        try {
            (void)retrospect(records);
        } catch (const InputError& error) {
            return error.findings().front().id;
        }
        return std::string("none");
    };
    CHECK(id_of({}) == "job-unopened");
    CHECK(id_of({{1, 0, {job::Remark{"hello"}, {}}}}) == "job-unopened");
    std::vector<job::Record> records = test::job_left_open();
    std::get<job::Opened>(records[0].event.body).network = "mian";
    CHECK(id_of(records) == "job-network-unknown");
    std::get<job::Opened>(records[0].event.body).harness_text = "{";
    CHECK(id_of(records) == "json-syntax");
}

TEST_CASE("a changed harness text is told as a notice") {
    std::vector<job::Record> records = test::job_left_open();
    std::get<job::Opened>(records[0].event.body).harness_text += "\n";
    const Review review = review_of(records);
    REQUIRE(review.notices.size() == 1);
    CHECK(review.notices[0].find("fingerprint") != std::string::npos);
}
