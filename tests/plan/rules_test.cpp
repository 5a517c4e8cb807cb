// The rules of thumb: the rollout against the rule it follows, and against its own definition.
#include "halfsplit/plan/rules.hpp"

#include "plan/random_problem.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <map>
#include <optional>

namespace halfsplit::plan {

namespace {

constexpr double tolerance = 1e-9;

double weight_of(const Problem& problem) {
    double sum = 0;
    for (const Hypothesis& hypothesis : problem.hypotheses) sum += hypothesis.probability;
    return sum;
}

// The problem once somebody has been at the site and only these hypotheses are left.
template <typename Left>
Problem after(const Problem& problem, const access::Site& site, Left left) {
    Problem result = problem;
    result.start = {site.place, problem.start.off | problem.workshop.closure(site.need)};
    for (std::size_t h = 0; h < problem.hypotheses.size(); ++h)
        if (!left(h)) result.hypotheses[h].probability = 0;
    return result;
}

double reach(const Problem& problem, access::Site site) {
    site.need = problem.workshop.closure(site.need);
    return problem.workshop.reach(site, problem.start.place, problem.start.off);
}

// Expected minutes of a test and of following the rule after it; none when it splits nothing.
std::optional<double> test_then(const Problem& problem, std::size_t index, Rule rule) {
    const Test& test = problem.tests[index];
    std::map<int, double> chance;
    for (std::size_t h = 0; h < problem.hypotheses.size(); ++h)
        if (problem.hypotheses[h].probability > 0)
            chance[test.outcome[h]] += problem.hypotheses[h].probability / weight_of(problem);
    if (chance.size() < 2) return std::nullopt;
    double minutes = reach(problem, test.site);
    for (const auto& [outcome, share] : chance) {
        const auto shows = [&, shown = outcome](std::size_t h) { return test.outcome[h] == shown; };
        minutes += share * follow(after(problem, test.site, shows), rule).expected_minutes;
    }
    return minutes;
}

// Of a look and of following the rule when it was not that; none when it is no suspect, or the only one.
std::optional<double> look_then(const Problem& problem, std::size_t element, Rule rule) {
    const Problem rest = after(problem, problem.bare[element],
                               [&](std::size_t h) { return problem.hypotheses[h].element != element; });
    const double share = weight_of(rest) / weight_of(problem);
    if (share == 0 || share == 1) return std::nullopt;
    return reach(problem, problem.bare[element]) + share * follow(rest, rule).expected_minutes;
}

// Every element laid bare one after another, in the best order. For up to exact_group elements.
double all_bare(Problem problem) {
    problem.tests.clear();
    return follow(problem, Rule::InformationPerMinute).expected_minutes;
}

// The least of all choices when information per minute follows.
double least_of_choices(const Problem& problem) {
    double least = problem.bare.empty() ? follow(problem, Rule::InformationPerMinute).expected_minutes
                                        : all_bare(problem);
    for (std::size_t t = 0; t < problem.tests.size(); ++t)
        if (const auto minutes = test_then(problem, t, Rule::InformationPerMinute))
            least = std::min(least, *minutes);
    for (std::size_t e = 0; e < problem.bare.size(); ++e)
        if (const auto minutes = look_then(problem, e, Rule::InformationPerMinute))
            least = std::min(least, *minutes);
    return least;
}

ChainShape vehicle(unsigned seed) {
    ChainShape shape;
    shape.points = 8 + seed % 5;
    shape.places = 3 + seed % 2;
    shape.covers = 5;
    shape.two_lines = shape.joints = seed % 2 == 0;
    shape.whole_bus = seed % 4 == 0;
    shape.bare = seed % 5 != 0;
    return shape;
}

}  // namespace

TEST_CASE(
    "A rollout is never dearer than the rule it follows, nor cheaper than the optimum, and now and then "
    "cheaper than the rule") {
    std::size_t cheaper = 0, dearer_than_least = 0;
    const auto check = [&](const Problem& problem) {
        const double rule = follow(problem, Rule::InformationPerMinute).expected_minutes;
        const Choice rollout = follow(problem, Rule::Rollout);
        const double least = solve(problem).best.expected_minutes;
        CHECK(rollout.expected_minutes <= rule + tolerance);
        CHECK(rollout.expected_minutes >= least - tolerance);
        CHECK(rollout.worst_minutes >= rollout.expected_minutes - tolerance);
        CHECK(rollout.minutes_now <= rollout.expected_minutes + tolerance);
        cheaper += rollout.expected_minutes < rule - tolerance ? 1 : 0;
        dearer_than_least += rollout.expected_minutes > least + tolerance ? 1 : 0;
    };
    for (unsigned seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        check(random_chain(vehicle(seed), seed));
        Problem problem = random_anything(3 + seed % 8, 2 + seed % 5, 2 + seed % 3, seed);
        check(problem);
        problem.bare.clear();
        check(problem);
    }
    CHECK(cheaper >= 30);
    CHECK(dearer_than_least >= 5);
}

TEST_CASE("A rollout begins with the choice that is best when information per minute follows") {
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        Problem problem = random_anything(3 + seed % 6, 2 + seed % 5, 2 + seed % 3, seed);
        if (seed % 4 == 0) problem.bare.clear();
        const Choice first = follow(problem, Rule::Rollout);
        if (first.step == Step::Done) continue;
        const double least = least_of_choices(problem);
        CHECK(first.expected_minutes <= least + tolerance);
        // Its own choice is worth that least when the rule follows, and what it says when it goes on itself.
        const auto valued = [&](Rule after_it) {
            const auto minutes = first.step == Step::Test ? test_then(problem, first.index, after_it)
                                                          : look_then(problem, first.index, after_it);
            return minutes.value_or(all_bare(problem));
        };
        if (first.step == Step::Test) {
            CHECK(valued(Rule::InformationPerMinute) == Approx(least).margin(tolerance));
            CHECK(valued(Rule::Rollout) == Approx(first.expected_minutes).margin(tolerance));
        } else {
            // A look by itself, or the first of the whole group.
            const double group = all_bare(problem);
            CHECK(std::min(valued(Rule::InformationPerMinute), group) == Approx(least).margin(tolerance));
            CHECK((first.expected_minutes == Approx(valued(Rule::Rollout)).margin(tolerance) ||
                   first.expected_minutes == Approx(group).margin(tolerance)));
        }
    }
}

TEST_CASE("Where nothing splits a rollout does what the rule does") {
    for (unsigned seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        Problem problem = random_anything(4 + seed % 9, 1, 2, seed);
        problem.tests.clear();
        const Choice rule = follow(problem, Rule::InformationPerMinute);
        const Choice rollout = follow(problem, Rule::Rollout);
        CHECK(rollout.step == Step::LayBare);
        CHECK(rollout.index == rule.index);
        CHECK(rollout.expected_minutes == rule.expected_minutes);
        CHECK(rollout.worst_minutes == rule.worst_minutes);
        problem.bare.clear();
        CHECK(follow(problem, Rule::Rollout).step == Step::Done);
    }
}

TEST_CASE("A rollout looks at the likeliest part by far, in plain sight, before it measures") {
    Problem problem;
    problem.hypotheses = {{8, 0}, {1, 1}, {1, 2}, {1, 3}};
    problem.tests = {{{0, 0, 5}, {0, 0, 1, 1}}, {{0, 0, 5}, {0, 1, 0, 1}}};
    problem.bare = {{0, 0, 1}, {0, 0, 30}, {0, 0, 30}, {0, 0, 30}};
    CHECK(follow(problem, Rule::InformationPerMinute).step == Step::Test);
    const Choice rollout = follow(problem, Rule::Rollout);
    CHECK(rollout.step == Step::LayBare);
    CHECK(rollout.index == 0);
    CHECK(rollout.expected_minutes == Approx(solve(problem).best.expected_minutes));
}

// Four suspects in a row and a reading between any two neighbours; the one in the middle takes 10 minutes,
// the others 1. By hand: whoever halves reads the middle and one more, 11 minutes; from the ends it is 1,
// then 1 for three in four, then 10 for two in four: 6.75; along the row 1, then 10 for three in four, then 1
// for two in four: 9.
TEST_CASE("The plan stands before the rules of thumb, and these dearest first") {
    Problem problem;
    problem.hypotheses = {{1, 0}, {1, 1}, {1, 2}, {1, 3}};
    problem.tests = {{{0, 0, 1}, {1, 0, 0, 0}}, {{0, 0, 10}, {1, 1, 0, 0}}, {{0, 0, 1}, {1, 1, 1, 0}}};
    const std::vector<ByRule> all = beside_rules(problem, solve(problem).best);
    REQUIRE(all.size() == 5);
    CHECK(all[0].rule == "plan");
    CHECK(all[0].expected_minutes == Approx(6.75));
    CHECK(all[0].worst_minutes == Approx(12));
    CHECK(all[1].rule == "half-by-count");
    CHECK(all[1].expected_minutes == Approx(11));
    CHECK(all[2].rule == "half-by-probability");
    CHECK(all[3].rule == "walk");
    CHECK(all[3].expected_minutes == Approx(9));
    CHECK(all[4].rule == "information-per-minute");
    CHECK(all[4].expected_minutes == Approx(6.75));
}

}  // namespace halfsplit::plan
