#include "plan/anytime_plan.hpp"

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/policy.hpp"

#include "plan/random_problem.hpp"
#include "plan/search_reach.hpp"
#include "plan/study.hpp"
#include "support/catch.hpp"

namespace halfsplit::plan {

namespace {

Problem chain(std::size_t points, bool two_lines, unsigned seed) {
    ChainShape shape;
    shape.points = points;
    shape.places = 6;
    shape.covers = 12;
    shape.two_lines = shape.joints = two_lines;
    return random_chain(shape, seed);
}

struct Two {
    explicit Two(const Problem& problem, std::uint64_t states)
        : study(problem, {0}),
          weights(study.ground.model, study.ground.sets,
                  [&] {
                      std::vector<double> own;
                      for (const Suspect& suspect : study.ground.model.suspects)
                          own.push_back(suspect.weight);
                      return own;
                  }()),
          rule(study.ground.model, study.ground.sets, weights, Rule::InformationPerMinute,
               RulePlan::Stopping::WhereCheaper),
          whole(study.ground.model, study.ground.sets, weights, study.ground.model.family_masks, {0}),
          anytime(study.ground.model, study.ground.sets, weights, whole, {states, Looks::AnyTime, states}) {}

    double by_rule(const Problem& problem) {
        return rule.follow(study.ground.sets.all(), problem.start).minutes;
    }
    double by_anytime(const Problem& problem) {
        return anytime.follow(study.ground.sets.all(), problem.start).minutes;
    }

    Study study;
    Weights weights;
    RulePlan rule;
    Search whole;
    AnytimePlan anytime;
};

}  // namespace

TEST_CASE("With no states to spend the anytime plan is the rule of thumb, stopped") {
    for (unsigned seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        const Problem problem = chain(30, seed % 2 == 0, seed);
        Two two(problem, 0);
        CHECK(two.by_anytime(problem) == Approx(two.by_rule(problem)));
        CHECK(two.anytime.expansions() == 0);
    }
}

TEST_CASE("The anytime plan is never worse than that, keeps to its states, and gains by them") {
    double rule = 0, anytime = 0;
    for (unsigned seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        const Problem problem = chain(60, seed % 2 == 0, seed);
        Two two(problem, 2000);
        rule += two.by_rule(problem);
        anytime += two.by_anytime(problem);
        CHECK(two.by_anytime(problem) <= two.by_rule(problem) + 1e-9);
        CHECK(two.anytime.expansions() <= 2000);
    }
    CHECK(anytime < 0.98 * rule);
}

TEST_CASE("Where the search runs out, the steps written down take the minutes that were told") {
    for (unsigned seed = 1; seed <= 12; ++seed) {
        CAPTURE(seed);
        const Problem problem = chain(40, seed % 3 == 0, seed);
        for (const Looks looks : {Looks::Last, Looks::AnyTime}) {
            const Limits limits{300, looks, 300};
            const Policy written = policy(problem, limits);
            double expected = 0;
            for (std::size_t h = 0; h < problem.hypotheses.size(); ++h)
                expected += problem.hypotheses[h].probability * written.minutes[h];
            CHECK(expected / total_probability(problem) == Approx(written.solution.best.expected_minutes));
        }
    }
}

TEST_CASE("Where the search runs out single looks are weighed, and what they gain is in the answer") {
    // A dozen parts in plain sight, each seen in a minute, before a chain that costs far more to read.
    Problem problem = chain(40, true, 3);
    for (std::size_t e = 0; e < 12; ++e) {
        problem.bare[e] = {problem.start.place, 0, 1};
        for (Hypothesis& own : problem.hypotheses)
            if (own.element == e) own.probability *= 20;
    }
    const Solution last = solve(problem, {50, Looks::Last});
    const Solution any_time = solve(problem, {50, Looks::AnyTime, 50});
    CHECK_FALSE(any_time.proven);
    CHECK(any_time.best.expected_minutes < 0.9 * last.best.expected_minutes);
    CHECK(any_time.lower_bound <= any_time.best.expected_minutes);
    CHECK(policy(problem, {50, Looks::AnyTime, 50}).solution.best.expected_minutes ==
          Approx(any_time.best.expected_minutes));
}

TEST_CASE("A problem out of the search's reach is planned all the same", "[long]") {
    const Problem problem = chain(most_tests_searched + 500, false, 1);
    const Limits limits{3000, Looks::AnyTime, 3000};
    const Solution once = solve(problem, limits), again = solve(problem, limits);
    CHECK(once.best.expected_minutes == again.best.expected_minutes);
    CHECK(once.best.index == again.best.index);
    CHECK(once.lower_bound == again.lower_bound);
    CHECK(once.states == again.states);
    CHECK(once.lower_bound <= once.best.expected_minutes);
    CHECK(once.best.expected_minutes < follow(problem, Rule::InformationPerMinute).expected_minutes);
}

}  // namespace halfsplit::plan
