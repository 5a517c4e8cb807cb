// Who answers, as a step of the hunt.
#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/advice/granted.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/report/step_text.hpp"

#include "advice/problem.hpp"
#include "advice/standing.hpp"
#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/sample_jobs.hpp"
#include "support/small_chain.hpp"

#include <algorithm>

namespace halfsplit::advice {

namespace {

using electrics::Power;
using harness::Index;

const harness::Harness& chain() {
    return test::small_chain();
}

Index part(const char* id) {
    return find_part(chain(), id);
}

// Nobody answers, and the bus is dead.
void begin_silent(test::JobWriter& job) {
    job.enter(1, job::Intake{.complaint = "all dead"});
    job.enter(1, job::Answers{.answering = {}, .silent = {"GW", "M1"}});
    job.enter(1, job::SafeState{true, true, true, 10});
}

std::vector<Arrangement> scans(const std::vector<Arrangement>& all) {
    std::vector<Arrangement> result;
    std::copy_if(all.begin(), all.end(), std::back_inserter(result),
                 [](const Arrangement& one) { return one.scan; });
    return result;
}

// What is planned for a silent bus where no meter can be brought to bear.
Posed without_readings(diagnosis::Predictor& predictor, const access::Costs& costs,
                       const diagnosis::Belief& belief) {
    PoseInput input{
        {chain(), 0, belief, costs, {chain().start, 0}, chain().networks[0].clip, Power::Off}, {}, {}};
    const Posed all = pose(input, predictor);
    for (const PlannedReading& reading : all.readings) input.unreachable.push_back(reading.tips.red.terminal);
    return pose(input, predictor);
}

}  // namespace

TEST_CASE("who answers is asked with each part unplugged that may have the short behind it") {
    test::JobWriter job;
    begin_silent(job);
    diagnosis::Predictor predictor(chain(), 0);
    const access::Costs costs(chain(), 0);
    const auto belief = infer(predictor, evidence(chain(), 0, job::replay(job.saved())));
    ArrangementInput input{chain(),   0, belief, costs, {chain().start, 0}, chain().networks[0].clip,
                           Power::Off};
    const auto asked = scans(arrangements(input, 1));
    REQUIRE(asked.size() >= 3);
    for (const Arrangement& one : asked) {
        CHECK(one.step == ArrangingStep::Unplug);
        CHECK(one.power == Power::Awake);
        CHECK(one.apart == electrics::Apart{one.part});
        CHECK(readings_in(one, chain(), 0).empty());
    }
    input.scanned = false;
    const auto unasked = scans(arrangements(input, 1));
    REQUIRE(unasked.size() == asked.size() + 1);
    CHECK(unasked.front().step == ArrangingStep::None);
}

TEST_CASE("without a short worth a thought nobody unplugs anything to ask") {
    diagnosis::Predictor predictor(chain(), 0);
    const access::Costs costs(chain(), 0);
    diagnosis::Evidence answered;
    answered.scanned.push_back({1, {.answering = {part("GW")}, .silent = {part("M1")}}, {}});
    const auto belief = infer(predictor, answered);
    CHECK(scans(arrangements(
                    {chain(), 0, belief, costs, {chain().start, 0}, chain().networks[0].clip, Power::Off}, 1))
              .empty());
}

TEST_CASE("where no meter gets to the bus, who answers with a part unplugged is what splits shorts") {
    test::JobWriter job;
    begin_silent(job);
    diagnosis::Predictor predictor(chain(), 0);
    const access::Costs costs(chain(), 0);
    const auto belief = infer(predictor, evidence(chain(), 0, job::replay(job.saved())));
    const Posed posed = without_readings(predictor, costs, belief);
    REQUIRE_FALSE(posed.readings.empty());
    for (std::size_t r = 0; r < posed.readings.size(); ++r) {
        const PlannedReading& reading = posed.readings[r];
        REQUIRE(posed.arrangements[reading.arrangement].scan);
        CHECK(posed.problem.tests[r].slip == 0);
        REQUIRE(reading.outcomes.size() >= 2);
        for (const OutcomeClass& outcome : reading.outcomes) CHECK(outcome.scan);
    }
}

TEST_CASE("the step says what to unplug, to connect the battery after that, and what either answer leaves") {
    harness::Harness handy = chain();
    handy.assumptions.power_on_minutes = handy.assumptions.power_off_minutes = 1;
    test::JobWriter job;
    begin_silent(job);
    Advisor advisor(handy, 0);
    // Whatever is asked for with a meter cannot be reached, and what is laid bare is sound.
    Recommendation advice = advisor.advise(job::replay(job.saved()));
    while (advice.action == Action::Read || advice.action == Action::Look) {
        if (advice.action == Action::Look)
            job.enter(1, job::Seen{advice.target.part, job::Verdict::Sound, ""});
        else
            job.enter(1, job::Reading{.red = advice.red.name,
                                      .black = advice.black.name,
                                      .outcome = job::Outcome::CouldNotReach});
        advice = advisor.advise(job::replay(job.saved()));
    }
    REQUIRE(advice.action == Action::Scan);
    REQUIRE(is_hunting(advice));
    REQUIRE(advice.prepare.size() == 2);
    CHECK(advice.prepare[0].step == "unplug");
    CHECK(advice.prepare[1].step == "wake");
    CHECK(advice.bus == "awake");
    REQUIRE(advice.outcomes.size() == 2);
    const auto nobody = std::find_if(advice.outcomes.begin(), advice.outcomes.end(),
                                     [](const Forecast& one) { return one.answering.empty(); });
    REQUIRE(nobody != advice.outcomes.end());
    CHECK(nobody->shows == "nobody answers");
    const std::string text = report::step_text(advice, handy, 0, {80, false});
    const auto unplug = text.find("unplug "), power = text.find("power "), ask = text.find("ask ");
    CHECK(unplug < power);
    CHECK(power < ask);
    CHECK(ask != std::string::npos);
    CHECK(text.find("if     nobody answers (") != std::string::npos);
    CHECK(text.find("CARE ") < unplug);
}

TEST_CASE("an answer to who answers grants what came before it, in order") {
    Recommendation advice;
    advice.action = Action::Scan;
    advice.outcomes.push_back({.shows = "nobody answers"});
    Preparation unplug, wake;
    unplug.step = "unplug";
    unplug.spot.part = unplug.spot.name = "X1";
    wake.step = "wake";
    advice.prepare = {unplug, wake};
    const auto events = granted(advice, job::Answers{.answering = {"GW"}, .silent = {"M1"}});
    REQUIRE(events.size() == 2);
    CHECK(std::get<job::PlugChange>(events[0]) == job::PlugChange{"X1", false, false});
    CHECK(std::get<job::SafeState>(events[1]) == job::SafeState{});
    CHECK(granted(advice, job::Remark{"tea"}).empty());
}

}  // namespace halfsplit::advice
