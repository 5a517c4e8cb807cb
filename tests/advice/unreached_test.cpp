// Where nobody gets: points that no lead reaches, parts that cannot be laid bare.
#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/card.hpp"
#include "halfsplit/job/state.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/sample_jobs.hpp"

#include <algorithm>
#include <set>

namespace halfsplit::advice {

namespace {

Recommendation advice_after(Advisor& advisor, test::JobWriter& job) {
    return advisor.advise(job::replay(job.saved()));
}

job::Event unreached(const Recommendation& advice) {
    if (advice.action == Action::Look)
        return {job::Seen{advice.target.part, job::Verdict::CouldNotReach, ""}};
    job::Reading reading;
    reading.red = advice.red.name;
    reading.black = advice.black.name;
    reading.outcome = job::Outcome::CouldNotReach;
    return {reading};
}

}  // namespace

TEST_CASE(
    "Where nobody gets to any part or point each is asked for once, and then it is said that this is all") {
    test::JobWriter job;
    test::begin(job);
    Advisor advisor(test::small_chain(), 0);
    std::set<std::string> asked;
    Recommendation advice = advice_after(advisor, job);
    for (int steps = 0; is_hunting(advice) && steps < 200; ++steps) {
        const bool look = advice.action == Action::Look;
        CHECK(asked.insert(look ? "look " + advice.target.part : advice.red.name + advice.black.name).second);
        job.enter(1, unreached(advice).body);
        advice = advice_after(advisor, job);
    }
    CHECK(advice.action == Action::Isolated);
    CHECK(asked.count("look X1") == 1);
    CHECK(asked.size() > 20);
    CHECK_FALSE(advice.parts.empty());  // what is left is still told
}

TEST_CASE("A part that a look did not tell about is asked for again only after a repair") {
    test::JobWriter job;
    test::begin(job);
    Advisor advisor(test::small_chain(), 0);
    job.read(1, "X1.b:4", "DS:6", 240);
    job.read(1, "X1.a:4", "DS:6", 0.4);
    REQUIRE(advice_after(advisor, job).action == Action::Look);
    REQUIRE(advice_after(advisor, job).target.part == "X1");
    job.enter(1, job::Seen{"X1", job::Verdict::NotSure, "dark in there"});
    CHECK(advice_after(advisor, job).target.part != "X1");
    job.enter(1, job::Repair{"S1", job::RepairAction::Repaired, ""});
    job::Verified proof;
    proof.all_answer = false;
    job.enter(1, proof);
    job.enter(1, job::SafeState{true, true, true, 10});
    const Recommendation after = advice_after(advisor, job);
    CHECK(after.action == Action::Look);
    CHECK(after.target.part == "X1");
}

TEST_CASE("What no look told about is in no plan, and counts among the hunts that come back from a card") {
    test::JobWriter job;
    test::begin(job);
    Advisor advisor(test::small_chain(), 0);
    const Card before = advisor.card(job::replay(job.saved()));
    const double chance = advice_after(advisor, job).parts.front().probability;
    REQUIRE(advice_after(advisor, job).parts.front().part == "X1");
    job.enter(1, job::Seen{"X1", job::Verdict::CouldNotReach, ""});
    const Card card = advisor.card(job::replay(job.saved()));
    for (const CardStep& step : card.steps) {
        CHECK((step.action != Action::Look || step.target.part != "X1"));
        for (const CardOutcome& outcome : step.outcomes)
            CHECK(std::count(outcome.parts.begin(), outcome.parts.end(), "X1") == 0);
    }
    CHECK(card.share < before.share);
    CHECK(card.share <= 1 - chance + 1e-6);
    CHECK(card.steps.front().chance == Approx(1 - chance).epsilon(0.02));
    // The card plans anew after each outcome and leaves "nothing wrong" out; else they are about the same.
    CHECK(advice_after(advisor, job).quote.expected_minutes ==
          Approx(card.quote.expected_minutes).epsilon(0.1));
    CHECK(advice_after(advisor, job).cannot_tell.find("X1 (") != std::string::npos);
}

TEST_CASE("Where nothing is left that can be found, neither quote nor card says that nothing is wrong") {
    test::JobWriter job;
    test::begin(job);
    for (const harness::Part& part : test::small_chain().parts)
        job.enter(0, job::Seen{part.id, job::Verdict::CouldNotReach, ""});
    Advisor advisor(test::small_chain(), 0);
    CHECK(advice_after(advisor, job).action == Action::Isolated);
    CHECK(advisor.left(job::replay(job.saved())).stage == Left::Stage::NotTold);
    const Card card = advisor.card(job::replay(job.saved()));
    CHECK(card.stage == Left::Stage::NotTold);
    CHECK(card.steps.empty());
}

}  // namespace halfsplit::advice
