// What a job's records become as evidence: its meter, its hand, its situations.
#include "halfsplit/advice/evidence.hpp"

#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/harness/meter_profile.hpp"
#include "halfsplit/report/step_text.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"
#include "support/sample_jobs.hpp"

#include <algorithm>

using namespace halfsplit;
using namespace halfsplit::advice;
using test::JobWriter;
using test::small_chain;

namespace {

job::State state_of(JobWriter& job) {
    return job::replay(job.saved());
}

diagnosis::Evidence evidence_of(JobWriter& job) {
    return evidence(small_chain(), 0, state_of(job));
}

Recommendation advice_after(JobWriter& job) {
    return Advisor(small_chain(), 0).advise(state_of(job));
}

harness::MeterProfile meter(const std::string& name) {
    const auto& all = harness::meter_profiles();
    return *std::find_if(all.begin(), all.end(), [&](const auto& own) { return own.name == name; });
}

bool holds(const std::vector<std::string>& sentences, const std::string& part) {
    return std::any_of(sentences.begin(), sentences.end(),
                       [&](const std::string& sentence) { return sentence.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("pins tried move the rate of slips, and what was assumed counts like thirty of them") {
    const auto rate = [](std::vector<job::PinsTried> tried) {
        JobWriter job;
        for (const job::PinsTried& pins : tried) job.enter(1, pins);
        return rates(small_chain(), state_of(job)).contact_slip;
    };
    // The assumed rate of the file is 0.03: a beta distribution of 0.9 slips in 30 (arithmetic).
    CHECK(rate({}) == Approx(0.03));
    CHECK(rate({{30, 0}}) == Approx(0.9 / 60));
    CHECK(rate({{20, 10}}) == Approx(10.9 / 50));
    CHECK(rate({{10, 4}, {10, 6}}) == Approx(10.9 / 50));
    CHECK(rate({{1000, 0}}) == Approx(0.9 / 1030));
}

TEST_CASE("the worse the hand, the less an open says") {
    const auto sound_after = [](std::optional<job::PinsTried> pins) {
        JobWriter job;
        test::begin(job);
        if (pins) job.enter(1, *pins);
        job.enter(1, job::Reading{.red = "X1.a:4", .black = "DS:6", .outcome = job::Outcome::Open});
        const auto belief = Advisor(small_chain(), 0).believe(state_of(job));
        return diagnosis::by_part(belief, small_chain())[find_part(small_chain(), "W4")];
    };
    // W4 lies beyond: only a slip lets it be the fault.
    const double usual = sound_after({});
    CHECK(sound_after(job::PinsTried{20, 10}) > 1.5 * usual);
    CHECK(sound_after(job::PinsTried{200, 0}) < 0.5 * usual);
}

TEST_CASE("the job's meter stands in for the assumed one, for the readings before as well") {
    JobWriter job;
    job.read(1, "X1.a:4", "DS:6", 0.3);
    const harness::Assumptions before = rates(small_chain(), state_of(job));
    CHECK(before.meter_percent == meter("plain").percent);
    job.enter(1, job::MeterUsed{meter("rough")});
    job.enter(1, job::MeterUsed{meter("fine")});
    const auto now = evidence_of(job).rates;
    REQUIRE(now);
    CHECK(now->meter_percent == 0.2);
    CHECK(now->meter_digits == 2);
    CHECK(now->meter_counts == 50'000);
    CHECK(now->meter_lead_ohm == 0.1);
    CHECK(now->meter_limit_ohm == 50e6);
    CHECK(now->buzzer_low_ohm == 20);
    CHECK(now->buzzer_high_ohm == 40);
    CHECK(now->contact_slip == before.contact_slip);
}

TEST_CASE("a meter's figures change what a reading weighs in the job") {
    const auto joint_after_a_beep = [](const std::string& name) {
        JobWriter job;
        test::begin(job);
        job.enter(1, job::MeterUsed{meter(name)});
        job.enter(1, job::Reading{.red = "X1.b:4", .black = "X1.a:4", .outcome = job::Outcome::Closed});
        const auto belief = Advisor(small_chain(), 0).believe(state_of(job));
        double sum = 0;
        for (const diagnosis::Suspect& suspect : diagnosis::suspects(belief, small_chain())) {
            if (diagnosis::name(small_chain(), suspect.fault) == "X1:joint-h@4") sum += suspect.probability;
        }
        return sum;
    };
    // A buzzer that never sounds above 40 ohm clears X1 of a bad joint better than one that may up to 120.
    CHECK(joint_after_a_beep("fine") < 0.8 * joint_after_a_beep("plain"));
    CHECK(joint_after_a_beep("rough") == Approx(joint_after_a_beep("plain")));
}

TEST_CASE("what is assumed of the meter is told until the job says which it is") {
    JobWriter job;
    test::begin(job);
    CHECK(holds(advice_after(job).assumed,
                "the meter: 1 % and 3 digits of 4000 counts, leads 0.2 ohm, OL from 40 Mohm, "
                "buzzer 20 ohm to 120 ohm"));
    job.enter(1, job::MeterUsed{meter("fine")});
    CHECK_FALSE(holds(advice_after(job).assumed, "the meter:"));
}

TEST_CASE("the rate of slips that is told has the pins tried counted in") {
    std::string text = test::read_file("tests/data/small_chain.json");
    const std::string stated = R"("assumptions": { "contact_slip": 0.03 })";
    REQUIRE(text.find(stated) != std::string::npos);
    text.replace(text.find(stated), stated.size(), R"("assumptions": { "wrong_wire": 0.01 })");
    const harness::Harness harness = test::harness_from_text(text);
    JobWriter job;
    test::begin(job);
    CHECK(
        holds(Advisor(harness, 0).advise(state_of(job)).assumed, "a probe makes no contact 3 % of the time"));
    job.enter(1, job::PinsTried{20, 10});
    CHECK(holds(Advisor(harness, 0).advise(state_of(job)).assumed,
                "a probe makes no contact 22 % of the time"));
}

TEST_CASE("moved or wet, a reading provokes the fault; a complaint of bumps is one that comes and goes") {
    JobWriter job;
    job.read(1, "X1.a:4", "DS:6", 0.3);
    job.enter(1, job::Reading{.red = "X1.a:4", .black = "DS:6", .value = 0.3, .moved = true});
    job.enter(1, job::Reading{.red = "X1.a:4", .black = "DS:6", .value = 0.3, .wet = true});
    const auto taken = evidence_of(job).measured;
    REQUIRE(taken.size() == 3);
    CHECK_FALSE(taken[0].provoked);
    CHECK(taken[1].provoked);
    CHECK(taken[2].provoked);
    const auto told = [](const std::string& condition) {
        JobWriter other;
        other.enter(1, job::Intake{.complaint = "seat dead", .conditions = {condition}});
        return evidence_of(other).comes_and_goes;
    };
    CHECK(told("comes and goes"));
    CHECK(told("bumps"));
    CHECK_FALSE(told("wet"));
}

TEST_CASE("what was apart and is together again has been reseated, from then on") {
    JobWriter job;
    job.read(1, "X1.b:4", "DS:6", 0.3);
    job.enter(1, job::PlugChange{.part = "X1", .plugged = false});
    job.read(1, "X1.a:4", "DS:6", 0.3);
    job.enter(1, job::PlugChange{.part = "X1", .plugged = true});
    job.read(1, "X1.b:4", "DS:6", 0.3);
    job.enter(1, job::Repair{"X2", job::RepairAction::Reseated, ""});
    job.enter(1, job::Repair{"X2", job::RepairAction::Cleaned, ""});
    const auto evidence = evidence_of(job);
    const auto x1 = find_part(small_chain(), "X1");
    const auto x2 = find_part(small_chain(), "X2");
    REQUIRE(evidence.measured.size() == 3);
    CHECK(evidence.measured[0].situation == diagnosis::Situation{});
    CHECK(evidence.measured[1].situation == diagnosis::Situation{.apart = {x1}});
    CHECK(evidence.measured[2].situation == diagnosis::Situation{.reseated = {x1}});
    CHECK(evidence.now.repaired == std::vector<diagnosis::Repaired>{{x2, true}, {x2, false}});
}

TEST_CASE("a contact that reads whole since it was apart is told as quiet, and to be renewed") {
    JobWriter job;
    test::begin(job);
    job.read(1, "X1.a:4", "DS:6", 0.2);
    job.read(1, "X1.b:4", "DS:6", 239);
    job.enter(1, job::PlugChange{.part = "X1", .plugged = false});
    job.enter(1, job::PlugChange{.part = "X1", .plugged = true});
    job.read(1, "X1.b:4", "DS:6", 0.3);
    job.read(1, "M1:1", "DS:6", 0.3);
    const Recommendation advice = advice_after(job);
    REQUIRE(advice.quieted.size() == 1);
    CHECK(advice.quieted.front().part == "X1");
    CHECK(advice.quieted.front().probability > 0.8);
    const std::string text = report::step_text(advice, small_chain(), 0, {200, false});
    CHECK(text.find("X1 may be quiet only because it was apart (") != std::string::npos);
    CHECK(text.find("clean or renew its contacts; a reseat does not last.") != std::string::npos);
}

// Looking takes so long that all is read first.
harness::Harness dear_to_look_at(double loom_minutes) {
    harness::Harness harness = small_chain();
    for (harness::Part& part : harness.parts) part.access.look_minutes = 120;
    harness.assumptions.loom_minutes = loom_minutes;
    return harness;
}

Recommendation advice_on(const harness::Harness& harness, const std::string& condition) {
    JobWriter job;
    job.enter(1, job::Intake{.complaint = "seat dead", .conditions = {condition}});
    job.enter(1, job::Answers{.answering = {"GW", "M1"}, .silent = {}});
    test::make_safe(job, 12);
    return Advisor(harness, 0).advise(state_of(job));
}

TEST_CASE("a complaint that comes and goes is read with the loom moved, a steady one is not") {
    const harness::Harness harness = dear_to_look_at(0.5);
    const Recommendation advice = advice_on(harness, "comes and goes");
    CHECK(advice.comes_and_goes > 0.3);
    REQUIRE(advice.action == Action::Read);
    CHECK(advice.move_loom);
    const std::string text = report::step_text(advice, harness, 0, {200, false});
    CHECK(text.find("the loom by hand while you read: the fault may come and go (") != std::string::npos);
    const Recommendation steady = advice_on(harness, "hot");
    REQUIRE(steady.action == Action::Read);
    CHECK_FALSE(steady.move_loom);
}

TEST_CASE("moving the loom is weighed: where it takes an hour, the reading at rest comes first") {
    const Recommendation advice = advice_on(dear_to_look_at(60), "comes and goes");
    CHECK(advice.comes_and_goes > 0.3);
    REQUIRE(advice.action == Action::Read);
    CHECK_FALSE(advice.move_loom);
}
