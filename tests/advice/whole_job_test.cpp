// Whether a job is whole: what its minutes went into, what was concluded from weak evidence, how well the
// fault is established, what is left to do.
#include "halfsplit/advice/recommendation_json.hpp"
#include "halfsplit/advice/retrospect.hpp"

#include "advice/hindsight/spent.hpp"
#include "support/catch.hpp"
#include "support/reviews.hpp"
#include "support/sample_jobs.hpp"

#include <algorithm>
#include <limits>

using namespace halfsplit;
using namespace halfsplit::advice;
using test::JobWriter;
using test::review_of;
using test::step;

namespace {

constexpr double open_line = std::numeric_limits<double>::infinity();

double minutes_of(const std::vector<Spent>& all, Work work) {
    double sum = 0;
    for (const Spent& spent : all) sum += spent.work == work ? spent.minutes : 0;
    return sum;
}

}  // namespace

TEST_CASE("minutes go to the walk and the covers by the harness's figures, and the rest to the work itself") {
    const WorkPlan plan{.own = Work::Probing, .travel = 2, .opening = 6};
    const auto enough = split(plan, 10);
    CHECK(minutes_of(enough, Work::Travel) == 2);
    CHECK(minutes_of(enough, Work::Opening) == 6);
    CHECK(minutes_of(enough, Work::Probing) == 2);
    const auto short_of_it = split(plan, 4);
    CHECK(minutes_of(short_of_it, Work::Travel) == 1);
    CHECK(minutes_of(short_of_it, Work::Opening) == 3);
    CHECK(minutes_of(short_of_it, Work::Probing) == 0);
    CHECK(split(plan, 0).empty());
    CHECK(split({.own = Work::Proof}, 7).front().minutes == 7);
}

TEST_CASE("the work of the steps sums to the bill, whatever was undone or entered by hand") {
    for (const auto& records : {test::job_with_a_repair_that_did_not_cure(), test::job_left_open()}) {
        const Review review = review_of(records);
        double steps = 0, kinds = 0;
        for (const ReviewStep& each : review.steps) {
            for (const Spent& spent : each.work) steps += spent.minutes;
            if (!each.counts) CHECK(each.work.empty());
        }
        for (const Spent& spent : review.minutes.by_work) kinds += spent.minutes;
        CHECK(steps == Approx(review.minutes.spent));
        CHECK(kinds == Approx(review.minutes.spent));
    }
    JobWriter job;
    test::begin(job);
    const auto remark = job.enter(3, job::Remark{"fetched a ladder"}, 40);
    job.enter(1, job::Undo{remark});
    CHECK(minutes_of(review_of(job).minutes.by_work, Work::Other) == Approx(4));
}

TEST_CASE("intake and safe state are preparing, a repair, a proof and covers put on are what they are") {
    const Review review = review_of(test::job_with_a_repair_that_did_not_cure());
    CHECK(minutes_of(review.minutes.by_work, Work::Preparing) == Approx(15 + 11));
    CHECK(minutes_of(review.minutes.by_work, Work::Proof) == Approx(5 + 7));
    CHECK(minutes_of(review.minutes.by_work, Work::Refit) == Approx(11 + 5));
    CHECK(minutes_of(review.minutes.by_work, Work::Repair) > 0);
    CHECK(minutes_of(review.minutes.by_work, Work::Opening) > 0);
    // From the socket to behind the kick panel: covers come off for it.
    CHECK(minutes_of(step(review, 8).work, Work::Opening) > 0);
    CHECK(minutes_of(step(review, 6).work, Work::Opening) == 0);
}

TEST_CASE("what the clock ran up to an advice belongs to the step after it") {
    JobWriter job;
    test::begin(job);
    job.enter(6, job::Recommended{advice::to_text(test::read_advice("DS:6", "DS:14", 1, 20, 60))});
    job.read(3, "DS:6", "DS:14", 60);
    const Review review = review_of(job);
    double minutes = 0;
    for (const Spent& spent : review.steps.back().work) minutes += spent.minutes;
    CHECK(minutes == Approx(9));
}

TEST_CASE("an open that was not read again is weak evidence; read twice it is not") {
    JobWriter job;
    test::begin(job);
    const auto open = job.read(5, "X1.b:4", "DS:6", open_line);
    const Review weak = review_of(job);
    REQUIRE(weak.weak.size() == 1);
    CHECK(weak.weak.front().sequence == open);
    CHECK(weak.weak.front().weakness == Weakness::Open);
    CHECK(weak.weak.front().moved >= relied_on);
    CHECK(weak.weak.front().chance_of_slip > 0.03);  // the assumed rate, and more: it was not all that likely
    CHECK(weak.weak.front().chance_of_slip <= contradicts);
    job.read(1, "DS:6", "X1.b:4", open_line);
    for (const WeakEvidence& each : review_of(job).weak) CHECK(each.weakness != Weakness::Open);
}

TEST_CASE("a beep without a figure is weak evidence, the figure is not") {
    const auto weaknesses = [](job::Reading reading) {
        JobWriter job;
        test::begin(job);
        job.enter(5, std::move(reading));
        return review_of(job).weak;
    };
    const auto beep = weaknesses({.red = "X1.b:4", .black = "DS:6", .outcome = job::Outcome::Closed});
    REQUIRE(beep.size() == 1);
    CHECK(beep.front().weakness == Weakness::Beep);
    CHECK(weaknesses({.red = "X1.b:4", .black = "DS:6", .value = 0.2}).empty());
}

TEST_CASE("an undone reading is no evidence, weak or not") {
    JobWriter job;
    test::begin(job);
    const auto open = job.read(5, "X1.b:4", "DS:6", open_line);
    job.enter(1, job::Undo{open});
    CHECK(review_of(job).weak.empty());
}

TEST_CASE("a fault is as well established as its cause that is established least") {
    const auto fault = [](bool look, bool read) {
        JobWriter job;
        test::begin(job);
        if (read) {
            job.read(1, "X1.a:4", "DS:6", 0.2);
            job.read(1, "X1.b:4", "DS:6", 30000);
            job.read(1, "X1.b:4", "DS:6", 30000);
        }
        if (look) job.enter(1, job::Seen{"X1", job::Verdict::Faulty, ""});
        job.enter(2, job::Repair{"X1", job::RepairAction::Cleaned, ""});
        job.enter(5, job::Verified{.complaint_gone = true});
        return review_of(job).fault;
    };
    CHECK(fault(true, true) == FaultProof::Seen);
    CHECK(fault(false, true) == FaultProof::Read);
    CHECK(fault(false, false) == FaultProof::Suspected);
    CHECK(review_of(test::job_left_open()).fault == FaultProof::None);
}

TEST_CASE("what is left to do comes in the order it is done, and nothing is left of a whole job") {
    const Review done = review_of(test::job_with_a_repair_that_did_not_cure());
    CHECK(done.to_do.empty());
    CHECK(whole(done));

    const Review open = review_of(test::job_left_open());
    CHECK_FALSE(whole(open));
    CHECK(open.to_do.front() == "read DS:6 to DS:14 again: record 22 does not fit");
    CHECK(open.to_do.back() == "close the job");
    const auto at = [&](const std::string& what) {
        return std::find(open.to_do.begin(), open.to_do.end(), what) - open.to_do.begin();
    };
    // What came off last goes on first.
    CHECK(at("plug in T1") < at("put back trim (rear side trim)"));
    CHECK(at("put back trim (rear side trim)") < at("put back kick (kick panel)"));

    JobWriter job;
    test::begin(job);
    job.enter(2, job::Seen{"X1", job::Verdict::Faulty, ""});
    CHECK(review_of(job).to_do.front().rfind("repair X1", 0) == 0);
    job.enter(2, job::Repair{"X1", job::RepairAction::Cleaned, ""});
    CHECK(review_of(job).to_do.front() == "prove the repair of X1");
    job.enter(2, job::Verified{.all_answer = true});
    CHECK(review_of(job).to_do.front() == "prove the repair of X1: try the complaint again");
    job.enter(2, job::Verified{.complaint_gone = false});
    CHECK(review_of(job).to_do.front() == "find the fault, for the repair of X1 did not cure");
}

TEST_CASE("a review tells of its log: records, bytes, checksum, torn tail, fingerprint") {
    JobWriter job;
    test::begin(job);
    std::string text, previous;
    for (const job::Record& record : job.saved()) {
        text += job::to_line(record, previous);
        previous = job::checksum_of(std::string_view(text).substr(text.rfind("{\"sequence\"")));
    }
    const auto whole_log = job::read_log(text, "a.job");
    const auto subject = subject_of(whole_log.records);
    const Review review = retrospect(whole_log, subject);
    CHECK(review.log.records == 4);
    CHECK(review.log.bytes == text.size());
    CHECK(review.log.checksum == whole_log.last_checksum);
    CHECK(review.log.torn_bytes == 0);
    CHECK(review.log.harness_matches);
    CHECK(review.log.harness_sha256.size() == 64);
    CHECK(review.log.program_version == "0.1.0");
    const auto torn = job::read_log(text + "{\"sequence\":5", "a.job");
    CHECK(retrospect(torn, subject).log.torn_bytes == 13);
}

TEST_CASE("of a long job the first records are weighed one by one, and it says so") {
    JobWriter job;
    test::begin(job);
    for (int i = 0; i < 260; ++i) job.read(1, "DS:6", "DS:14", 120);
    const Review review = review_of(job);
    CHECK(review.steps.size() == 263);
    CHECK(review.steps[100].told);
    CHECK_FALSE(review.steps.back().told);
    REQUIRE(review.notices.size() == 1);
    CHECK(review.notices.front().rfind("The job is long: from record 25", 0) == 0);
    // What is believed at the end is of all of them.
    CHECK(review.open.outlook.suspects > 0);
}
