#include "support/sample_jobs.hpp"

#include "halfsplit/advice/recommendation_json.hpp"
#include "halfsplit/base/digest.hpp"
#include "halfsplit/job/implied.hpp"

#include "support/files_of_tests.hpp"
#include "support/small_chain.hpp"

#include <limits>

namespace halfsplit::test {

using advice::Action;
using advice::Recommendation;

namespace {

constexpr double open_line = std::numeric_limits<double>::infinity();

const char* const job_path = "van.job";

}  // namespace

JobWriter::JobWriter() : log_(files_, clock_, job_path) {
    const std::string text = read_file("tests/data/small_chain.json");
    log_.append({job::Opened{"small_chain.json", text, sha256(text), "main", "0.1.0"}, {}});
}

job::Sequence JobWriter::enter(double minutes_later, job::Body body, std::optional<double> entered_minutes) {
    clock_.advance_minutes(minutes_later);
    const job::Sequence sequence = log_.records().size() + 1;
    log_.append(job::with_implied({std::move(body), entered_minutes}, log_.records(), small_chain()));
    return sequence;
}

job::Sequence JobWriter::advise(const Recommendation& recommendation) {
    return enter(0, job::Recommended{advice::to_text(recommendation)});
}

job::Sequence JobWriter::read(double minutes_later, const std::string& red, const std::string& black,
                              double ohm) {
    return enter(minutes_later, job::Reading{.red = red, .black = black, .value = ohm});
}

job::Sequence JobWriter::amend(double minutes_later, job::Sequence target, job::Body body) {
    return enter(minutes_later,
                 job::Amend{target, std::make_shared<const job::Event>(job::Event{std::move(body), {}})});
}

std::vector<job::Record> JobWriter::saved() {
    return job::read_log(files_.text_of(job_path), job_path).records;
}

void begin(JobWriter& job) {
    job.enter(1, job::Intake{.complaint = "seat controller silent, lamp on in the dash",
                             .recent_work = "step light fitted",
                             .conditions = {"wet"},
                             .replaced = {"M1"}});
    job.enter(2, job::Answers{.answering = {"GW"}, .silent = {"M1"}});
    make_safe(job, 12);
}

void make_safe(JobWriter& job, double minutes_later) {
    job.enter(
        minutes_later,
        job::SafeState{.ignition_off = true, .bus_asleep = true, .battery_off = true, .waited_minutes = 10});
}

Recommendation read_advice(const std::string& red, const std::string& black, double now, double expected,
                           double worst) {
    Recommendation advice;
    advice.action = Action::Read;
    advice.red.name = red;
    advice.black.name = black;
    advice.black.clip = true;
    advice.minutes_now = now;
    advice.quote.expected_minutes = expected;
    advice.quote.worst_minutes = worst;
    return advice;
}

Recommendation look_advice(const std::string& part, double now, double expected, double worst) {
    Recommendation advice;
    advice.action = Action::Look;
    advice.target.name = part;
    advice.minutes_now = now;
    advice.quote.expected_minutes = expected;
    advice.quote.worst_minutes = worst;
    return advice;
}

Recommendation step_advice(Action action, const std::string& part) {
    Recommendation advice;
    advice.action = action;
    advice.target.name = part;
    return advice;
}

std::vector<job::Record> job_with_a_repair_that_did_not_cure() {
    JobWriter job;
    begin(job);
    job.advise(read_advice("X1.b:4", "DS:6", 13, 47, 118));
    job.read(2, "DS:6", "DS:14", 120.3);
    job.advise(read_advice("X1.b:4", "DS:6", 13, 45, 116));
    job.read(9, "X1.b:4", "DS:6", 30600);
    job.advise(look_advice("X1", 3, 9, 40));
    job.enter(4, job::Seen{"X1", job::Verdict::Faulty, "green on the pins"});
    job.advise(step_advice(Action::Repair, "X1"));
    job.enter(6, job::Repair{"X1", job::RepairAction::Cleaned, "pins brushed"});
    job.advise(step_advice(Action::Verify));
    job.enter(5, job::Verified{.h_to_l_ohm = 120.2, .all_answer = false, .complaint_gone = false});
    job.enter(1, job::Paused{});
    job.enter(45, job::Resumed{});
    make_safe(job, 11);
    job.advise(read_advice("X2.a:1", "DS:6", 27, 36, 71));
    job.enter(27, job::Reading{.red = "X2.a:1", .black = "DS:6", .outcome = job::Outcome::Open});
    Recommendation advice = read_advice("M1:3", "DS:6", 1, 18, 50);
    advice.alternatives.push_back(
        {.action = Action::Read, .red = "M1:1", .black = "DS:6", .expected_minutes = 22, .more_minutes = 4});
    job.advise(advice);
    job.read(1, "M1:1", "DS:6", 0.2);
    job.advise(read_advice("X2.a:1", "DS:6", 1, 12, 40));
    job.read(2, "X2.a:1", "DS:6", 0.3);
    job.advise(read_advice("X2.b:1", "DS:6", 1, 6, 30));
    job.read(2, "X2.b:1", "DS:6", 240.4);
    job.advise(read_advice("X2.b:2", "DS:14", 1, 5, 9));
    job.enter(3, job::Seen{"X2", job::Verdict::Faulty, "pin 1 receded"});
    job.advise(step_advice(Action::Repair, "X2"));
    job.enter(8, job::Repair{"X2", job::RepairAction::Repaired, "terminal 1 replaced and locked"});
    job.advise(step_advice(Action::Verify));
    job.enter(7, job::Verified{
                     .h_to_l_ohm = 60.1, .all_answer = true, .codes_clear = true, .complaint_gone = true});
    job.enter(11, job::CoverChange{.cover = "seat", .off = false});
    job.enter(5, job::CoverChange{.cover = "kick", .off = false});
    job.enter(1, job::Closed{});
    return job.saved();
}

std::vector<job::Record> job_left_open() {
    JobWriter job;
    begin(job);
    job.advise(read_advice("X1.a:4", "DS:6", 13, 47, 118));
    const job::Sequence slip = job.read(10, "X1.a:4", "DS:6", open_line);
    job.read(2, "X1.b:4", "DS:6", 0.2);
    job.read(1, "X1.b:5", "DS:14", 0.2);
    job.enter(1, job::Undo{slip});
    const job::Sequence typed_wrong = job.read(1, "X1.a:4", "DS:6", 1.4);
    job.amend(1, typed_wrong, job::Reading{.red = "X1.a:4", .black = "DS:6", .value = 0.1});
    job.read(1, "DS:6", "X1.b:4", 0.2);
    job.enter(
        1, job::Reading{.red = "X1.b:4", .black = "ground", .quantity = job::Quantity::Volt, .value = 0.1});
    job.advise(look_advice("T1", 28, 40, 70));
    job.enter(30, job::PlugChange{.part = "T1", .plugged = false}, 25);
    job.enter(4, job::Seen{"BP1", job::Verdict::NotSure, "dirty"});
    job.enter(2, job::Reading{.red = "X9:1", .black = "DS:6", .outcome = job::Outcome::CouldNotReach});
    job.read(2, "DS:6", "DS:14", open_line);
    job.enter(1, job::Remark{"called the office for the drawing"});
    job.enter(0, job::Paused{});
    return job.saved();
}

}  // namespace halfsplit::test
