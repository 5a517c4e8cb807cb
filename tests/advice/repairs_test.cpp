// Repairs in hindsight: the fault behind each, what was seen of it, what proved the repair.
#include "halfsplit/advice/review.hpp"

#include "support/catch.hpp"
#include "support/reviews.hpp"
#include "support/sample_jobs.hpp"
#include "support/small_chain.hpp"

using namespace halfsplit;
using namespace halfsplit::advice;
using test::JobWriter;
using test::review_of;

namespace {

// Of a job that ends, after one other repair, with the open found behind X2.
Review cured_at_x2(JobWriter& job) {
    job.read(1, "X2.b:1", "DS:6", 240.4);
    job.enter(2, job::Seen{"X2", job::Verdict::Faulty, "pin 1 receded"});
    job.enter(7, job::Repair{"X2", job::RepairAction::Repaired, ""});
    job.enter(3, job::Verified{.h_to_l_ohm = 60.2, .all_answer = true, .complaint_gone = true});
    Review review = review_of(job);
    REQUIRE(review.repairs.size() == 2);
    return review;
}

}  // namespace

TEST_CASE("each repair is told with the fault behind it, what was seen, and what it proved") {
    const auto records = test::job_with_a_repair_that_did_not_cure();
    const Review review = review_of(records);
    REQUIRE(review.repairs.size() == 2);
    const ReviewedRepair& first = review.repairs[0];
    CHECK(first.repair.part == "X1");
    CHECK(first.part_name == "dash to floor");
    CHECK(first.proof == Proof::NotCured);
    CHECK(first.proof_sequence == 15);
    REQUIRE(first.seen_faulty.size() == 1);
    CHECK(first.seen_faulty[0].sequence == 11);
    CHECK(first.seen_faulty[0].what == "green on the pins");
    CHECK(first.cause);  // there were two faults
    const ReviewedRepair& second = review.repairs[1];
    CHECK(second.fault == "X2:receded-h@1");
    CHECK(second.fault_in_words == "pin receded, line H, cavity 1, connector X2 (floor to rear)");
    CHECK(second.proof == Proof::Cured);
    CHECK(second.cause);
    REQUIRE(second.verified);
    CHECK(second.verified->h_to_l_ohm == 60.1);
    CHECK(review.proof == Proof::Cured);

    const auto before =
        diagnosis::suspects(test::belief_after(records, second.sequence - 1), test::small_chain());
    REQUIRE_FALSE(before.empty());
    CHECK(second.fault_chance == before.front().probability);
    CHECK(second.part_chance >= second.fault_chance);
}

TEST_CASE("a good part that was reseated on suspicion is not called the cause") {
    JobWriter job;
    test::begin(job);
    job.enter(2, job::Repair{"X1", job::RepairAction::Reseated, ""});
    job.enter(3, job::Verified{.h_to_l_ohm = 120.2, .complaint_gone = false});
    test::make_safe(job, 11);
    job.read(9, "X1.a:4", "DS:6", 0.1);
    job.read(9, "X2.a:1", "DS:6", 0.3);
    const Review review = cured_at_x2(job);
    CHECK(review.repairs[0].seen_faulty.empty());
    CHECK_FALSE(review.repairs[0].cause);
    CHECK(review.repairs[0].in_hindsight < 0.5);
    CHECK(review.repairs[1].cause);
}

TEST_CASE("a part that was taken for faulty, and whose repair did not cure, is not called a cause") {
    JobWriter job;
    test::begin(job);
    test::make_safe(job, 11);
    job.read(9, "X2.a:1", "DS:6", 0.3);
    job.enter(2, job::Seen{"X1", job::Verdict::Faulty, "green at pin 4"});
    job.enter(5, job::Repair{"X1", job::RepairAction::Cleaned, ""});
    job.enter(3, job::Verified{.h_to_l_ohm = 120.2, .complaint_gone = false});
    test::make_safe(job, 11);
    const Review review = cured_at_x2(job);
    REQUIRE(review.repairs[0].seen_faulty.size() == 1);
    CHECK(review.repairs[0].in_hindsight > 0.5);
    CHECK(review.repairs[0].in_hindsight < advice::all_but_certain);
    CHECK_FALSE(review.repairs[0].cause);
    CHECK(review.repairs[1].cause);
}

TEST_CASE("a proof counts as it was amended, for an earlier repair too") {
    JobWriter job;
    test::begin(job);
    job.enter(2, job::Repair{"X1", job::RepairAction::Cleaned, ""});
    const auto proof =
        job.enter(3, job::Verified{.h_to_l_ohm = 60.2, .all_answer = true, .complaint_gone = true});
    job.enter(2, job::Repair{"X2", job::RepairAction::Cleaned, ""});
    CHECK(review_of(job).repairs[0].proof == Proof::Cured);
    job.amend(1, proof, job::Verified{.h_to_l_ohm = 120.2, .complaint_gone = false});
    const Review review = review_of(job);
    CHECK(review.repairs[0].proof == Proof::NotCured);
    CHECK(review.repairs[1].proof == Proof::None);
    CHECK(review.proof == Proof::None);
}

TEST_CASE("an undone repair is no repair") {
    JobWriter job;
    test::begin(job);
    job.enter(2, job::Seen{"X1", job::Verdict::Faulty, ""});
    const auto repair = job.enter(2, job::Repair{"X1", job::RepairAction::Cleaned, ""});
    job.enter(1, job::Undo{repair});
    const Review review = review_of(job);
    CHECK(review.repairs.empty());
    REQUIRE(review.open.faulty_not_repaired.size() == 1);
    CHECK(review.open.faulty_not_repaired[0].id == "X1");
}

// The band for 60 ohm nominal: 54 to 69 accepted, 70 and more open, below 54 short or a third terminator
// (common practice, no source).
TEST_CASE("a proof is what was tried: complaint, answers, ohms within the band") {
    const auto proof_of = [](const job::Verified& verified) {
        JobWriter job;
        test::begin(job);
        job.enter(2, job::Repair{"X1", job::RepairAction::Cleaned, ""});
        job.enter(3, verified);
        return review_of(job).proof;
    };
    CHECK(proof_of({}) == Proof::None);
    CHECK(proof_of({.complaint_gone = true}) == Proof::Cured);
    CHECK(proof_of({.h_to_l_ohm = 54, .complaint_gone = true}) == Proof::Cured);
    CHECK(proof_of({.h_to_l_ohm = 69, .complaint_gone = true}) == Proof::Cured);
    CHECK(proof_of({.h_to_l_ohm = 53.9, .complaint_gone = true}) == Proof::NotCured);
    CHECK(proof_of({.h_to_l_ohm = 70, .complaint_gone = true}) == Proof::NotCured);
    CHECK(proof_of({.all_answer = false, .complaint_gone = true}) == Proof::NotCured);
    CHECK(proof_of({.complaint_gone = false}) == Proof::NotCured);
    CHECK(proof_of({.h_to_l_ohm = 60.1, .all_answer = true}) == Proof::Partial);
    CHECK(proof_of({.codes_clear = true}) == Proof::Partial);
}
