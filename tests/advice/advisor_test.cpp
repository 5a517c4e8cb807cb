// What the adviser says of a job, on the small chain.
#include "halfsplit/advice/advisor.hpp"

#include "halfsplit/advice/recommendation_json.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/session/rehearsal.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/sample_jobs.hpp"

#include <algorithm>

namespace halfsplit::advice {

namespace {

Recommendation advice_after(test::JobWriter& job) {
    Advisor advisor(test::small_chain(), 0);
    return advisor.advise(job::replay(job.saved()));
}

}  // namespace

TEST_CASE("120 ohm from H to L at the socket is said to tell no open from another") {
    test::JobWriter job;
    test::begin(job);
    job.read(1, "DS:6", "DS:14", 118);
    const Recommendation advice = advice_after(job);
    REQUIRE(advice.parts.size() > 1);
    CHECK(advice.cannot_tell.find("H to L cannot tell") != std::string::npos);
}

TEST_CASE("with a terminator off H to L does tell, and nothing is said against it") {
    test::JobWriter job;
    test::begin(job);
    job.enter(1, job::PlugChange{"T1", false, false});
    job.read(1, "X1.b:4", "X1.b:5", 118);
    CHECK(advice_after(job).cannot_tell.empty());
}

TEST_CASE("a repair is proven with everything plugged in: what is apart is to be plugged in first") {
    test::JobWriter job;
    test::begin(job);
    job.enter(1, job::PlugChange{"T1", false, false});
    job.enter(1, job::Seen{"X1", job::Verdict::Faulty, "pin receded"});
    job.enter(1, job::Repair{"X1", job::RepairAction::Repaired, ""});
    const Recommendation advice = advice_after(job);
    REQUIRE(advice.action == Action::Verify);
    REQUIRE(advice.prepare.size() == 1);
    CHECK(advice.prepare.front().step == "plug");
    CHECK(advice.prepare.front().spot.part == "T1");
}

TEST_CASE("preparations come back from the log as they went in") {
    Recommendation advice;
    Preparation first;
    first.step = "clip";
    first.point = "X1.a:4/5";
    first.minutes = 1;
    advice.prepare.push_back(first);
    const Recommendation back = from_text(to_text(advice));
    REQUIRE(back.prepare.size() == 1);
    CHECK(back.prepare.front().point == "X1.a:4/5");
    CHECK(to_text(back) == to_text(advice));
}

TEST_CASE("a short is found by taking the bus apart, and nothing stays apart") {
    session::Rehearsal rehearsal(test::small_chain(), 0);
    const auto played = rehearsal.play(rehearsal.fault_named("W6:short"), {});
    REQUIRE(played.found);
    const auto unplugged = [](const job::Record& record) {
        const auto* change = std::get_if<job::PlugChange>(&record.event.body);
        return change != nullptr && !change->plugged;
    };
    CHECK(std::any_of(played.records.begin(), played.records.end(), unplugged));
    const job::State state = job::replay(played.records);
    CHECK(state.closed);
    CHECK(state.apart.empty());
    CHECK(state.covers_off.empty());
}

}  // namespace halfsplit::advice
