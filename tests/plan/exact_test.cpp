#include "halfsplit/plan/exact.hpp"

#include "halfsplit/plan/rules.hpp"

#include "plan/brute_force.hpp"
#include "plan/random_problem.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <numeric>

namespace halfsplit::plan {

namespace {

constexpr double tolerance = 1e-9;

void check_against_every_plan(const Problem& problem, Looks looks) {
    const BruteForce every = brute_force(problem, looks);
    const Solution solution = solve(problem, {.looks = looks}, 2);
    REQUIRE(solution.proven);
    REQUIRE(solution.looks == looks);
    CHECK(solution.best.expected_minutes == Approx(every.expected).margin(tolerance));
    CHECK(solution.lower_bound == solution.best.expected_minutes);
    CHECK(solution.best.worst_minutes >= every.least_worst - tolerance);
    CHECK(solution.best.worst_minutes <= every.most_worst + tolerance);
    for (const Choice& choice : solution.ranked) {
        CHECK(choice.expected_minutes >= solution.best.expected_minutes - tolerance);
        if (choice.step != Step::Test) continue;
        CHECK(choice.expected_minutes ==
              Approx(brute_force_after(problem, choice.index, looks)).margin(tolerance));
    }
}

void check_against_every_plan(const Problem& problem) {
    for (const Looks looks : {Looks::AnyTime, Looks::Last}) check_against_every_plan(problem, looks);
}

// One element after another at one place, each as likely, no tests: only the order matters.
Problem group(std::size_t elements, unsigned seed) {
    Problem problem = random_anything(elements, 1, 2, seed);
    for (std::size_t e = 0; e < elements; ++e)
        problem.hypotheses[e] = {1.0 + static_cast<double>(e * 7 % 5), e};
    problem.bare.resize(elements, problem.bare.front());
    for (std::size_t e = 0; e < elements; ++e) problem.bare[e].minutes = 1 + static_cast<double>(e * 3 % 4);
    problem.tests.clear();
    return problem;
}

bool same(const Choice& a, const Choice& b) {
    return a.step == b.step && a.index == b.index && a.expected_minutes == b.expected_minutes &&
           a.worst_minutes == b.worst_minutes;
}

}  // namespace

TEST_CASE("On a chain with one line the plan is as good as the best of all plans") {
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        ChainShape shape;
        shape.bare = seed % 5 != 0;
        shape.points = 3 + seed % 4;
        check_against_every_plan(random_chain(shape, seed));
    }
}

TEST_CASE("On a chain with two lines the plan is as good as the best of all plans", "[long]") {
    for (unsigned seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        ChainShape shape;
        shape.points = 2 + seed % 4;
        shape.two_lines = true;
        shape.bare = seed % 5 != 0;
        shape.joints = seed % 2 == 0;
        shape.shorts = seed % 3 == 0;
        shape.whole_bus = seed % 4 == 0;
        check_against_every_plan(random_chain(shape, seed));
    }
}

TEST_CASE("Where a find may not cure, the plan goes on from it, and is as good as the best of all plans") {
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        check_against_every_plan(with_pairs(random_anything(4, 3, 2 + seed % 2, seed), 1 + seed % 3, seed));
        ChainShape shape;
        shape.points = 3;
        check_against_every_plan(with_pairs(random_chain(shape, seed), 1 + seed % 3, seed));
    }
}

TEST_CASE("Of two covers that serve as well the one is taken off that lies over what a find may leave") {
    const access::CoverSet one = 1, other = 2;
    Problem problem;
    problem.workshop = access::Workshop({{5, 5, 0}, {5, 5, 0}}, 1, {0});
    problem.hypotheses = {{0.5, 0}, {0.3, 1}, {0.2, 1, 3}, {0, 2}};
    problem.bare = {{0, 0, 30}, {0, 0, 30}, {0, other, 30}};
    problem.tests = {{{0, one, 1}, {0, 1, 1, 0}, 0, 0}, {{0, other, 1}, {0, 1, 1, 0}, 0, 0}};
    const Choice with_second = solve(problem).best;
    CHECK(with_second.step == Step::Test);
    CHECK(with_second.index == 1);
    // Cover, test and the first look for all of them; the last look for those that it did not cure.
    CHECK(with_second.expected_minutes == Approx(10 + 1 + 30 + 0.2 * 30));
    CHECK(with_second.worst_minutes == Approx(10 + 1 + 30 + 30));
    problem.hypotheses[2].then = cured;
    CHECK(solve(problem).best.index == 0);
    CHECK(solve(problem).best.expected_minutes == Approx(10 + 1 + 30));
}

TEST_CASE("Where a detour is shorter than the way, what is proven is the best of all plans") {
    for (unsigned seed = 1; seed <= 600; ++seed) {
        CAPTURE(seed);
        const Problem problem = with_detours(random_anything(5 + seed % 2, 4 + seed % 2, 2, seed), seed);
        for (const Looks looks : {Looks::AnyTime, Looks::Last}) {
            const Solution solution = solve(problem, {.looks = looks});
            CHECK(solution.proven);
            CHECK(solution.best.expected_minutes ==
                  Approx(brute_force(problem, looks).expected).margin(tolerance));
        }
    }
}

TEST_CASE("On problems of no particular shape the plan is as good as the best of all plans") {
    for (unsigned seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        Problem problem = random_anything(3 + seed % 6, 2 + seed % 5, 2 + seed % 3, seed);
        check_against_every_plan(problem);
        problem.bare.clear();
        check_against_every_plan(problem);
    }
}

TEST_CASE("A look before all tests are made is taken where it is worth it, and is worth it now and then") {
    int better = 0;
    for (unsigned seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        const Problem problem = random_anything(3 + seed % 6, 2 + seed % 5, 2 + seed % 3, seed);
        const double any_time = solve(problem).best.expected_minutes;
        const double last = solve(problem, {.looks = Looks::Last}).best.expected_minutes;
        CHECK(any_time <= last + tolerance);
        better += any_time < last - tolerance ? 1 : 0;
    }
    CHECK(better > 10);
    CHECK(better < 290);
}

TEST_CASE("The likeliest part by far, in plain sight, is looked at before anything is measured") {
    Problem problem;
    problem.hypotheses = {{8, 0}, {1, 1}, {1, 2}, {1, 3}};
    problem.tests = {{{0, 0, 5}, {0, 0, 1, 1}}, {{0, 0, 5}, {0, 1, 0, 1}}};
    problem.bare = {{0, 0, 1}, {0, 0, 30}, {0, 0, 30}, {0, 0, 30}};
    const Solution solution = solve(problem);
    CHECK(solution.best.step == Step::LayBare);
    CHECK(solution.best.index == 0);
    CHECK(solution.best.minutes_now == Approx(1));
    // One minute for all; of the other three, one is told by one test and two by two.
    CHECK(solution.best.expected_minutes == Approx((11 * 1 + 3 * 30 + 5 * 1 + 10 * 2) / 11.0));
    CHECK(solve(problem, {.looks = Looks::Last}).best.step == Step::Test);
}

TEST_CASE("Covers already off and the place one stands at count from the start") {
    for (unsigned seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        Problem problem = random_anything(6, 4, 2, seed);
        const double before = solve(problem).best.expected_minutes;
        problem.start.off = problem.workshop.closure(0b0110);
        check_against_every_plan(problem);
        CHECK(solve(problem).best.expected_minutes <= before + tolerance);
        problem.start.place = 2;
        check_against_every_plan(problem);
    }
}

TEST_CASE("Asked again the plan is the same to the last digit") {
    ChainShape shape;
    shape.points = 12;
    shape.covers = 6;
    shape.two_lines = true;
    shape.uneven = false;
    for (unsigned seed = 1; seed <= 5; ++seed) {
        const Problem problem = random_chain(shape, seed);
        const Solution once = solve(problem, {}, 4), again = solve(problem, {}, 4);
        REQUIRE(once.ranked.size() == again.ranked.size());
        CHECK(once.states == again.states);
        CHECK(std::equal(once.ranked.begin(), once.ranked.end(), again.ranked.begin(), same));
    }
}

TEST_CASE("Of tests that are as good as each other the first is taken") {
    Problem problem;
    problem.hypotheses = {{1, 0}, {1, 1}, {1, 2}, {1, 3}};
    problem.tests = {{{0, 0, 1}, {0, 0, 0, 1}},
                     {{0, 0, 1}, {0, 1, 0, 1}},
                     {{0, 0, 1}, {0, 0, 1, 1}},
                     {{0, 0, 1}, {1, 0, 1, 0}}};
    const Solution solution = solve(problem, {}, 3);
    CHECK(solution.best.index == 1);
    CHECK(solution.best.expected_minutes == Approx(2));
    CHECK(solution.ranked.size() >= 2);
    CHECK(solution.ranked[1].index == 2);
}

TEST_CASE("The order of the hypotheses does not matter") {
    ChainShape shape;
    shape.points = 10;
    shape.covers = 5;
    shape.two_lines = true;
    const Problem problem = random_chain(shape, 3);
    Problem turned = problem;
    std::reverse(turned.hypotheses.begin(), turned.hypotheses.end());
    for (Test& test : turned.tests) std::reverse(test.outcome.begin(), test.outcome.end());
    CHECK(solve(turned).best.expected_minutes == Approx(solve(problem).best.expected_minutes).epsilon(1e-12));
}

TEST_CASE("When the states run out the answer is a real plan and the bounds hold") {
    ChainShape shape;
    shape.points = 14;
    shape.covers = 6;
    shape.two_lines = true;
    for (unsigned seed = 1; seed <= 6; ++seed) {
        const Problem problem = random_chain(shape, seed);
        const double least = solve(problem).best.expected_minutes;
        for (const std::uint64_t states : {0U, 1U, 10U, 60U, 200U}) {
            CAPTURE(seed, states);
            const Solution cut = solve(problem, {states, Looks::AnyTime, states}, 2);
            CHECK(cut.lower_bound <= least + tolerance);
            CHECK(cut.best.expected_minutes >= least - tolerance);
            CHECK(cut.best.expected_minutes <=
                  follow(problem, Rule::InformationPerMinute).expected_minutes + tolerance);
            // Of either class the search and what follows it, and the blocks.
            CHECK(cut.states <= 5 * (states + 1));
            if (cut.proven && cut.looks == Looks::AnyTime) CHECK(cut.best.expected_minutes == Approx(least));
            for (const Choice& choice : cut.ranked) CHECK(choice.expected_minutes >= least - tolerance);
        }
        CHECK_FALSE(solve(problem, {3, Looks::AnyTime, 3}).proven);
        // Reading stops where looking takes no longer, which the rule alone does not.
        CHECK(solve(problem, {0, Looks::AnyTime, 0}).best.expected_minutes <
              follow(problem, Rule::InformationPerMinute).expected_minutes - tolerance);
    }
}

TEST_CASE("A group of nine is put in a good order and the bound stays below the best one") {
    for (unsigned seed = 1; seed <= 6; ++seed) {
        CAPTURE(seed);
        const Problem problem = group(9, seed);
        const BruteForce every = brute_force(problem);  // all 362,880 orders
        const Solution solution = solve(problem);
        CHECK(solution.lower_bound <= every.expected + tolerance);
        CHECK(solution.best.expected_minutes >= every.expected - tolerance);
        CHECK(solution.best.expected_minutes <= every.expected * 1.1);
        if (solution.proven) CHECK(solution.best.expected_minutes == Approx(every.expected));
    }
}

TEST_CASE("A large group behind one cover is laid bare by probability per minute, and that is proven") {
    Problem problem;
    problem.workshop = access::Workshop({{20, 10, 0}}, 1, {0});
    double weighted = 0, time = 30, total = 0;
    for (std::size_t e = 0; e < 50; ++e) {
        problem.hypotheses.push_back({static_cast<double>(50 - e), e});
        problem.bare.push_back({0, 1, 2});
        time += 2;
        weighted += static_cast<double>(50 - e) * time;
        total += static_cast<double>(50 - e);
    }
    const Solution solution = solve(problem);
    CHECK(solution.proven);
    CHECK(solution.best.step == Step::LayBare);
    CHECK(solution.best.index == 0);
    CHECK(solution.best.minutes_now == Approx(32));
    CHECK(solution.best.expected_minutes == Approx(weighted / total));
    CHECK(solution.best.worst_minutes == Approx(130));
}

TEST_CASE("Two of each pocket are looked at before walking on") {
    Problem problem;
    problem.workshop = access::Workshop({}, 2, {0, 10, 10, 0});
    problem.hypotheses = {{1, 0}, {1, 1}, {1, 2}, {1, 3}};
    problem.bare = {{1, 0, 1}, {0, 0, 1}, {1, 0, 1}, {0, 0, 1}};
    const Solution solution = solve(problem);
    CHECK(solution.best.index == 1);
    CHECK(solution.best.expected_minutes == Approx((1 + 2 + 13 + 14) / 4.0));
}

TEST_CASE("A plan three hundred tests deep is no trouble") {
    Problem problem;
    const std::size_t count = 300;
    for (std::size_t h = 0; h < count; ++h) problem.hypotheses.push_back({1, h});
    for (std::size_t t = 0; t + 1 < count; ++t) {
        problem.tests.push_back({{0, 0, 1}, Outcomes(count, 0)});
        problem.tests.back().outcome[t] = 1;
    }
    const Solution solution = solve(problem, {2000});
    // One is ruled out at a time: 1 + 2 + ... + 299, and 299 once more.
    const double walk = (299.0 * 300 / 2 + 299) / 300;
    CHECK(solution.best.expected_minutes == Approx(walk));
    CHECK(solution.best.worst_minutes == Approx(299));
    CHECK(solution.lower_bound <= walk);
}

TEST_CASE("Sets of more than a thousand suspects work") {
    Problem problem;
    const std::size_t count = 1200;
    for (std::size_t h = 0; h < count; ++h) problem.hypotheses.push_back({1, h});
    for (std::size_t bit = 0; bit < 11; ++bit) {
        problem.tests.push_back({{0, 0, 1}, {}});
        for (std::size_t h = 0; h < count; ++h) problem.tests.back().outcome.push_back(h >> bit & 1U);
    }
    const Choice halved = follow(problem, Rule::HalfByProbability);
    CHECK(halved.worst_minutes == Approx(11));
    const Solution solution = solve(problem, {200});
    CHECK(solution.best.expected_minutes <= 11);
    CHECK(solution.lower_bound >= 10);  // log2 of 1200 is 10.2
}

TEST_CASE("With one element left there is only laying it bare") {
    Problem problem;
    problem.workshop = access::Workshop({}, 2, {0, 5, 5, 0});
    problem.hypotheses = {{0.3, 0}, {0.7, 0}};
    problem.tests = {{{0, 0, 1}, {0, 1}}};
    problem.bare = {{1, 0, 3}};
    const Solution solution = solve(problem, {}, 3);
    CHECK(solution.proven);
    CHECK(solution.best.step == Step::LayBare);
    CHECK(solution.best.expected_minutes == Approx(8));
    problem.bare.clear();
    CHECK(solve(problem).best.step == Step::Done);
    CHECK(solve(problem).ranked.empty());
    CHECK(solve(problem).proven);
}

}  // namespace halfsplit::plan
