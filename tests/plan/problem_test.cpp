#include "halfsplit/plan/problem.hpp"

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/one_step.hpp"
#include "halfsplit/plan/rules.hpp"

#include "support/catch.hpp"

#include <functional>
#include <limits>
#include <stdexcept>
#include <string>

namespace halfsplit::plan {

namespace {

Problem sound() {
    Problem problem;
    problem.workshop = access::Workshop({{1, 1, 0}}, 2, {0, 2, 2, 0});
    problem.hypotheses = {{0.5, 0}, {0.5, 1}};
    problem.tests = {{{1, 1, 1}, {0, 1}, 0.1, 1}};
    problem.bare = {{0, 0, 3}, {1, 1, 3}};
    return problem;
}

void check_refused(const std::string& named, const std::function<void(Problem&)>& spoil) {
    INFO(named);
    Problem problem = sound();
    spoil(problem);
    CHECK_THROWS_WITH(require_sound(problem), Catch::Contains(named));
    CHECK_THROWS_AS(solve(problem), std::invalid_argument);
    CHECK_THROWS_AS(one_step(problem), std::invalid_argument);
    CHECK_THROWS_AS(follow(problem, Rule::Walk), std::invalid_argument);
}

}  // namespace

TEST_CASE("A sound problem is let through") {
    CHECK_NOTHROW(require_sound(sound()));
}

TEST_CASE("A problem with a figure that makes no sense is refused and the figure is named") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    check_refused("hypotheses[1].probability", [&](Problem& p) { p.hypotheses[1].probability = nan; });
    check_refused("hypotheses[0].probability", [](Problem& p) { p.hypotheses[0].probability = -0.1; });
    check_refused("hypotheses[0].probability", [&](Problem& p) { p.hypotheses[0].probability = infinity; });
    check_refused("hypotheses have",
                  [](Problem& p) { p.hypotheses[0].probability = p.hypotheses[1].probability = 0; });
    check_refused("hypotheses have", [](Problem& p) {
        p.hypotheses[0].probability = p.hypotheses[1].probability = std::numeric_limits<double>::max();
    });
    check_refused("hypotheses have", [](Problem& p) {
        p.hypotheses.clear();
        p.tests.clear();
    });
    check_refused("hypotheses[1].element", [](Problem& p) { p.hypotheses[1].element = 2; });
    check_refused("tests[0].outcome ", [](Problem& p) { p.tests[0].outcome.push_back(0); });
    check_refused("tests[0].slip ", [&](Problem& p) { p.tests[0].slip = nan; });
    check_refused("tests[0].slip ", [](Problem& p) { p.tests[0].slip = 1.01; });
    check_refused("tests[0].slip_outcome", [](Problem& p) { p.tests[0].slip_outcome = -1; });
    check_refused("tests[0].minutes", [](Problem& p) { p.tests[0].site.minutes = -1; });
    check_refused("tests[0].place", [](Problem& p) { p.tests[0].site.place = 2; });
    check_refused("tests[0].need", [](Problem& p) { p.tests[0].site.need = 2; });
    check_refused("bare[1].minutes", [&](Problem& p) { p.bare[1].minutes = nan; });
    check_refused("bare[0].place", [](Problem& p) { p.bare[0].place = 7; });
    check_refused("start.place", [](Problem& p) { p.start.place = 2; });
}

TEST_CASE("A hypothesis goes on only to one that is there, ends there, and is nobody else's") {
    check_refused("hypotheses[0].then", [](Problem& p) { p.hypotheses[0].then = 7; });
    check_refused("hypotheses[0].then", [](Problem& p) { p.hypotheses[0].then = 0; });
    check_refused("hypotheses[0].then", [](Problem& p) { p.hypotheses[0].then = 1; });
    const auto add = [](Problem& p) {
        p.hypotheses.push_back({0, 0});
        for (Test& test : p.tests) test.outcome.push_back(0);
        return p.hypotheses.size() - 1;
    };
    check_refused("hypotheses[1].then",
                  [&](Problem& p) { p.hypotheses[0].then = p.hypotheses[1].then = add(p); });
    Problem goes_on = sound();
    goes_on.hypotheses[0].then = add(goes_on);
    CHECK_NOTHROW(require_sound(goes_on));
    goes_on.bare.clear();  // nothing is found, so nothing goes on
    CHECK(solve(goes_on).proven);
}

TEST_CASE("Options of a plan one step ahead must make sense") {
    const Problem problem = sound();
    OneStepOptions options;
    options.ignored = 1;
    CHECK_THROWS_AS(one_step(problem, options), std::invalid_argument);
    options.ignored = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(one_step(problem, options), std::invalid_argument);
    options = {};
    options.candidates = 0;
    CHECK_THROWS_AS(one_step(problem, options), std::invalid_argument);
}

TEST_CASE("Tests that tell nothing are allowed and never made") {
    Problem problem = sound();
    problem.tests.insert(problem.tests.begin(), Test{{0, 0, 0}, {1, 1}, 0, 0});
    const Solution solution = solve(problem, {}, 5);
    for (const Choice& choice : solution.ranked) CHECK((choice.step != Step::Test || choice.index == 1));
    CHECK(solution.best.expected_minutes == Approx(solve(sound()).best.expected_minutes));
}

TEST_CASE("A hypothesis without probability changes nothing") {
    Problem problem = sound();
    problem.hypotheses.push_back({0, 0});
    problem.tests[0].outcome.push_back(2);
    CHECK(solve(problem).best.expected_minutes == Approx(solve(sound()).best.expected_minutes));
    CHECK(solve(problem).best.worst_minutes == Approx(solve(sound()).best.worst_minutes));
}

}  // namespace halfsplit::plan
