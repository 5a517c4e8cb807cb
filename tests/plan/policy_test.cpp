#include "halfsplit/plan/policy.hpp"

#include "plan/random_problem.hpp"
#include "support/catch.hpp"
#include "support/follow_policy.hpp"

#include <algorithm>

namespace halfsplit::plan {

namespace {

void check_policy(const Problem& problem, const Limits& limits = {}) {
    const Policy whole = policy(problem, limits);
    const Solution solution = solve(problem, limits);
    double expected = 0, worst = 0, total = 0;
    for (std::size_t h = 0; h < problem.hypotheses.size(); ++h) {
        const double chance = problem.hypotheses[h].probability;
        if (chance <= 0) continue;
        CHECK(whole.minutes[h] == Approx(followed(whole, problem, h)));
        expected += chance * whole.minutes[h];
        worst = std::max(worst, whole.minutes[h]);
        total += chance;
    }
    CHECK(whole.solution.best.expected_minutes == Approx(solution.best.expected_minutes));
    CHECK(expected / total == Approx(solution.best.expected_minutes).margin(1e-9));
    CHECK(worst == Approx(solution.best.worst_minutes).margin(1e-9));
    CHECK(minutes_within(whole, problem, 1) == Approx(worst));
    CHECK(minutes_within(whole, problem, 0.5) <= minutes_within(whole, problem, 0.9));
    for (const PolicyStep& step : whole.steps) {
        double sum = 0;
        for (const auto& branch : step.branches) sum += branch.chance;
        CHECK(sum == Approx(step.chance).margin(1e-12));
    }
}

}  // namespace

TEST_CASE("A policy costs each hypothesis what following it takes, and all of them what the plan is worth") {
    for (unsigned seed = 1; seed <= 150; ++seed) {
        CAPTURE(seed);
        Problem problem = random_anything(3 + seed % 6, 2 + seed % 5, 2 + seed % 3, seed);
        check_policy(problem);
        check_policy(problem, {.looks = Looks::Last});
        problem.bare.clear();
        check_policy(problem);
    }
}

TEST_CASE("A policy goes on from a find that does not cure") {
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        const Problem problem = with_pairs(random_anything(4 + seed % 3, 4, 2, seed), 1 + seed % 4, seed);
        check_policy(problem);
        check_policy(problem, {.looks = Looks::Last});
    }
}

TEST_CASE("The policy of a chain is what the plan is worth, at the size of a vehicle") {
    for (unsigned seed = 1; seed <= 6; ++seed) {
        CAPTURE(seed);
        ChainShape shape;
        shape.points = 12;
        shape.covers = 6;
        shape.two_lines = true;
        check_policy(random_chain(shape, seed));
    }
}

TEST_CASE("Where the states run out the policy goes on by rule of thumb, to the end") {
    for (unsigned seed = 1; seed <= 6; ++seed) {
        CAPTURE(seed);
        ChainShape shape;
        shape.points = 14;
        shape.covers = 6;
        shape.two_lines = true;
        const Problem problem = random_chain(shape, seed);
        const Policy whole = policy(problem, {40, Looks::AnyTime, 40});
        double expected = 0;
        for (std::size_t h = 0; h < problem.hypotheses.size(); ++h)
            expected += problem.hypotheses[h].probability * followed(whole, problem, h);
        CHECK(expected >= whole.solution.lower_bound - 1e-9);
    }
}

TEST_CASE("Within how many minutes a hunt ends counts the likeliest first to the least") {
    Problem problem;
    problem.hypotheses = {{0.6, 0}, {0.3, 1}, {0.1, 2}};
    problem.bare = {{0, 0, 1}, {0, 0, 1}, {0, 0, 1}};
    const Policy whole = policy(problem);
    CHECK(whole.minutes == std::vector<double>{1, 2, 3});
    CHECK(minutes_within(whole, problem, 0.5) == 1);
    CHECK(minutes_within(whole, problem, 0.6) == 1);
    CHECK(minutes_within(whole, problem, 0.9) == 2);
    CHECK(minutes_within(whole, problem, 0.95) == 3);
}

TEST_CASE("Where states run out, the steps take no longer than the plan is said to") {
    for (unsigned seed = 1; seed <= 8; ++seed) {
        ChainShape shape;
        shape.points = 16;
        shape.covers = 6;
        shape.two_lines = seed % 2 == 0;
        const Problem alone = random_chain(shape, seed);
        const Problem problem = seed > 4 ? with_pairs(alone, 5, seed) : alone;
        for (const std::uint64_t states : {0U, 1U, 10U, 60U}) {
            CAPTURE(seed, states);
            const Policy cut = policy(problem, {states, Looks::AnyTime, states});
            double expected = 0, total = 0;
            for (std::size_t h = 0; h < problem.hypotheses.size(); ++h) {
                const double chance = problem.hypotheses[h].probability;
                if (chance <= 0) continue;
                CHECK(cut.minutes[h] == Approx(followed(cut, problem, h)));
                expected += chance * cut.minutes[h];
                total += chance;
            }
            CHECK(expected / total <= cut.solution.best.expected_minutes + 1e-9);
            CHECK(expected / total >= cut.solution.lower_bound - 1e-9);
        }
    }
}

// A look that the ranking knew to be the better beginning was told with the minutes of a plan that went on
// otherwise.
TEST_CASE("a starved plan that begins with a look takes what it is said to") {
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        const Problem problem = random_anything(4 + seed % 4, 3 + seed % 4, 2 + seed % 2, seed);
        const Policy starved = policy(problem, {0, Looks::AnyTime, 0});
        double expected = 0;
        for (std::size_t h = 0; h < problem.hypotheses.size(); ++h)
            expected += problem.hypotheses[h].probability * followed(starved, problem, h);
        CHECK(starved.solution.best.expected_minutes == Approx(expected / total_probability(problem)));
        CHECK(starved.solution.best.step == starved.steps.front().step);
        CHECK(starved.solution.best.index == starved.steps.front().index);
    }
}

}  // namespace halfsplit::plan
