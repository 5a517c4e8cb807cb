// What the plan is to be best at, and what would change the advice.
#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/recommendation_json.hpp"

#include <nlohmann/json.hpp>

#include "advice/turning.hpp"
#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/sample_jobs.hpp"

namespace halfsplit::advice {

namespace {

test::JobWriter begun() {
    test::JobWriter job;
    test::begin(job);
    return job;
}

Recommendation advised(const Aim& aim) {
    return Advisor(test::small_chain(), 0).advise(job::replay(begun().saved()), aim);
}

// Two hypotheses in parts 0 and 1, a third in part 1 as well.
Posed three(double first, double second, double third) {
    Posed posed;
    posed.problem.hypotheses = {{first, 0}, {second, 1}, {third, 1}};
    posed.part_of_element = {0, 1};
    return posed;
}

plan::Option option_of(std::vector<double> minutes) {
    plan::Option option;
    option.minutes = std::move(minutes);
    return option;
}

}  // namespace

TEST_CASE("another aim gives another plan, better at that aim and worse at the first") {
    const Recommendation expected = advised({});
    const Recommendation worst = advised({.least_worst = true});
    REQUIRE(worst.quote.proven);
    CHECK(worst.quote.worst_minutes < expected.quote.worst_minutes);
    CHECK(worst.quote.expected_minutes > expected.quote.expected_minutes);
    CHECK(worst.quote.worst_lower_bound_minutes == Approx(worst.quote.worst_minutes));
    const double between = (worst.quote.worst_minutes + expected.quote.worst_minutes) / 2;
    const Recommendation capped = advised({.worst_at_most = between});
    CHECK(capped.quote.worst_minutes <= between);
    CHECK(capped.quote.expected_minutes <= worst.quote.expected_minutes);
    const Recommendation beyond = advised({.worst_at_most = 1});
    CHECK(beyond.quote.worst_minutes == Approx(worst.quote.worst_minutes));
    CHECK(beyond.quote.worst_lower_bound_minutes > 1);
}

TEST_CASE("whoever only isolates is done sooner") {
    const Recommendation bare = advised({}), isolated = advised({.isolate = true});
    CHECK(isolated.action == Action::Read);
    CHECK(isolated.quote.expected_minutes < bare.quote.expected_minutes);
    CHECK(isolated.quote.worst_minutes < bare.quote.worst_minutes);
}

TEST_CASE("nine hunts in ten lie between the middle and the worst") {
    const Quote quote = advised({}).quote;
    CHECK(quote.ninety_minutes >= quote.expected_minutes);
    CHECK(quote.ninety_minutes <= quote.worst_minutes);
}

TEST_CASE("an aim survives the log") {
    Recommendation advice = advised({.worst_at_most = 77.5, .isolate = true});
    const Recommendation again = from_text(to_text(advice));
    CHECK(again.aim == advice.aim);
    CHECK(again.quote.ninety_minutes == Approx(advice.quote.ninety_minutes).margin(1e-4));
    CHECK(from_text(to_text(advised({}))).aim == Aim{});
    // Advice from before there was a choice.
    nlohmann::json old = to_json(advice);
    for (const char* member : {"aim", "ninety_minutes", "worst_lower_bound_minutes", "turning_points"})
        old.erase(member);
    CHECK(recommendation_from_json(old).aim == Aim{});
}

TEST_CASE("a turning point is the chance at which both steps come out alike") {
    const harness::Harness& harness = test::small_chain();
    // The step that is advised is 10 better where part 0 is at fault, 30 worse where part 1 is.
    const plan::Option best = option_of({5, 50, 50}), other = option_of({15, 20, 20});
    const std::vector<TurningPoint> points = turning_points(harness, three(0.8, 0.1, 0.1), best, other);
    REQUIRE(points.size() == 2);
    for (const TurningPoint& point : points) {
        const bool first = point.part == harness.parts[0].id;
        CHECK(point.now == Approx(first ? 0.8 : 0.2));
        CHECK(point.at == Approx(first ? 0.75 : 0.25));
    }
    // At the turning point itself neither is better.
    CHECK(turning_points(harness, three(0.75, 0.15, 0.1), best, other).empty());
    // Better wherever the fault is: nothing turns it.
    CHECK(turning_points(harness, three(0.8, 0.1, 0.1), option_of({1, 2, 3}), other).empty());
    // What was cut off has no say.
    CHECK(turning_points(harness, three(0.8, 0.1, 0.1), option_of({5, -1, -1}), other).empty());
}

TEST_CASE("what is left of a job goes down as it is read, and ends at what was found") {
    Advisor advisor(test::small_chain(), 0);
    const auto left = [&](test::JobWriter& job) { return advisor.left(job::replay(job.saved())); };
    test::JobWriter job = begun();
    const Left before = left(job);
    CHECK(before.stage == Left::Stage::Hunting);
    REQUIRE_FALSE(before.costly.empty());
    for (std::size_t i = 1; i < before.costly.size(); ++i)
        CHECK(before.costly[i - 1].minutes >= before.costly[i].minutes);
    job.enter(1, job::CoverChange{"kick", true});
    const Left open = left(job);
    CHECK(open.refit_minutes > 0);
    CHECK(open.quote.expected_minutes < before.quote.expected_minutes);
    job.enter(1, job::Seen{"X1", job::Verdict::Faulty, "pin receded"});
    CHECK(left(job).stage == Left::Stage::Found);
    CHECK(left(job).found == "X1");
    job.enter(1, job::Repair{"X1", job::RepairAction::Repaired, ""});
    CHECK(left(job).stage == Left::Stage::Mended);
    job.enter(
        1, job::Verified{.h_to_l_ohm = 60, .all_answer = true, .codes_clear = true, .complaint_gone = true});
    CHECK(left(job).stage == Left::Stage::Cured);
}

}  // namespace halfsplit::advice
