#include "halfsplit/plan/replanned.hpp"

#include "plan/brute_force.hpp"
#include "plan/random_problem.hpp"
#include "support/catch.hpp"
#include "support/follow_policy.hpp"

namespace halfsplit::plan {

namespace {

// What following it takes each hypothesis; true chances at every step.
void check_true(const Policy& policy, const Problem& problem) {
    double expected = 0, worst = 0;
    const double total = total_probability(problem);
    for (std::size_t h = 0; h < problem.hypotheses.size(); ++h) {
        const double chance = problem.hypotheses[h].probability;
        if (chance <= 0) continue;
        CHECK(policy.minutes[h] == Approx(followed(policy, problem, h)));
        expected += chance * policy.minutes[h];
        worst = std::max(worst, policy.minutes[h]);
    }
    CHECK(policy.solution.best.expected_minutes == Approx(expected / total));
    CHECK(policy.solution.best.worst_minutes == Approx(worst));
    std::vector<double> weight;
    for (const Hypothesis& own : problem.hypotheses) weight.push_back(own.probability);
    for (const Hypothesis& own : problem.hypotheses)
        if (own.then != cured && own.probability > 0) weight[own.then] = own.probability;
    for (const PolicyStep& step : policy.steps) {
        double suspected = 0, branches = 0;
        for (const std::size_t h : step.suspects) suspected += weight[h] / total;
        for (const auto& branch : step.branches) branches += branch.chance;
        CHECK(step.chance == Approx(suspected).margin(1e-12));
        CHECK(branches == Approx(step.chance).margin(1e-12));
    }
}

Problem chain(unsigned seed, std::size_t points = 14) {
    ChainShape shape;
    shape.points = points;
    shape.covers = 6;
    shape.two_lines = true;
    return random_chain(shape, seed);
}

const Limits starved{30, Looks::AnyTime, 30};

}  // namespace

TEST_CASE("what one search proves is not planned anew") {
    for (unsigned seed = 1; seed <= 20; ++seed) {
        const Problem problem = random_anything(3 + seed % 5, 2 + seed % 5, 2 + seed % 3, seed);
        const Policy once = policy(problem), anew = replanned(problem);
        REQUIRE(once.solution.proven);
        CHECK(anew.solution.proven);
        CHECK(anew.minutes == once.minutes);
        CHECK(anew.solution.states == once.solution.states);
    }
}

TEST_CASE("planned anew a starved plan is never worse, says the truth, and never beats every plan there is") {
    std::size_t bettered = 0;
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        const Problem alone = random_anything(4 + seed % 3, 3 + seed % 4, 2 + seed % 2, seed);
        const Problem problem = seed % 2 == 0 ? with_pairs(alone, 1 + seed % 2, seed) : alone;
        const Limits none{0, Looks::AnyTime, 0};
        const Policy once = policy(problem, none);
        const Policy anew = replanned(problem, {none, 0.0});
        check_true(anew, problem);
        const double best = brute_force(problem).expected;
        CHECK(anew.solution.best.expected_minutes <= once.solution.best.expected_minutes + 1e-9);
        CHECK(anew.solution.best.expected_minutes >= best - 1e-9);
        CHECK(anew.solution.lower_bound <= best + 1e-9);
        if (anew.solution.best.expected_minutes < once.solution.best.expected_minutes - 1e-9) ++bettered;
    }
    CHECK(bettered > 0);
}

TEST_CASE("after the first step, parts small enough to be proven are the best there are") {
    for (unsigned seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        const Problem problem = chain(seed, 5);
        // Just short of what the whole takes.
        const std::uint64_t needed = solve(problem, {2'000'000, Looks::Last}).states;
        const Limits short_of_it{needed - 1, Looks::Last};
        const Policy anew = replanned(problem, {short_of_it, 0.0});
        check_true(anew, problem);
        if (anew.solution.proven || anew.steps.front().step != Step::Test) continue;
        const double best = brute_force_after(problem, anew.steps.front().index, Looks::Last);
        CHECK(anew.solution.best.expected_minutes == Approx(best));
    }
}

TEST_CASE("on chains of a vehicle's size planning anew makes up for states that ran out") {
    double once_minutes = 0, anew_minutes = 0, bound = 0;
    for (unsigned seed = 1; seed <= 10; ++seed) {
        CAPTURE(seed);
        const Problem problem = seed > 7 ? with_pairs(chain(seed), 5, seed) : chain(seed);
        const Policy once = policy(problem, starved);
        const Policy anew = replanned(problem, {starved});
        check_true(anew, problem);
        CHECK(anew.solution.best.expected_minutes <= once.solution.best.expected_minutes + 1e-9);
        once_minutes += once.solution.best.expected_minutes;
        anew_minutes += anew.solution.best.expected_minutes;
        bound += solve(problem).lower_bound;
    }
    CHECK(anew_minutes < once_minutes);
    CHECK(anew_minutes >= bound);
}

TEST_CASE("the worst case that was planned for, or asked for, is kept to when planning anew") {
    for (unsigned seed = 1; seed <= 10; ++seed) {
        CAPTURE(seed);
        const Problem problem = chain(seed, 10);
        const Objective least{.least_worst = true};
        const Policy once = policy(problem, starved, least), anew = replanned(problem, {starved}, least);
        check_true(anew, problem);
        CHECK(anew.solution.best.worst_minutes <= once.solution.best.worst_minutes + 1e-9);
        CHECK(anew.solution.best.expected_minutes <= once.solution.best.expected_minutes + 1e-9);
        const Objective capped{.worst_at_most = once.solution.best.worst_minutes * 1.1};
        const Policy within = replanned(problem, {starved}, capped);
        check_true(within, problem);
        CHECK(within.solution.best.worst_minutes <= capped.worst_at_most + 1e-9);
    }
}

TEST_CASE("once its expansions are spent nothing more is planned anew") {
    const Problem problem = chain(3);
    const Policy once = policy(problem, starved);
    CHECK(replanned(problem, {starved, 0.01, 0}).minutes == once.minutes);
    CHECK(replanned(problem, {starved, 1.1}).minutes == once.minutes);
    const Policy some = replanned(problem, {starved, 0.01, 100});
    CHECK(some.solution.states <= once.solution.states + 100 + 3 * 60);
    CHECK(some.solution.best.expected_minutes <= once.solution.best.expected_minutes + 1e-9);
}

}  // namespace halfsplit::plan
