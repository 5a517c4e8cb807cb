#include "plan/block_bound.hpp"

#include "halfsplit/plan/bounds.hpp"
#include "halfsplit/plan/exact.hpp"

#include "plan/brute_force.hpp"
#include "plan/desk.hpp"
#include "plan/random_problem.hpp"
#include "support/catch.hpp"

#include <algorithm>

namespace halfsplit::plan {

namespace {

double bound_of(const Problem& problem, std::uint64_t states) {
    const Outline outline(problem);
    Ground ground(outline, outline.prior());
    std::vector<double> weights;
    for (const Suspect& suspect : ground.model.suspects) weights.push_back(suspect.weight);
    Weights weighed(ground.model, ground.sets, weights);
    return block_bound(ground.model, ground.sets, weighed, problem.start, states).minutes;
}

Problem chain(std::size_t points, bool two_lines, unsigned seed) {
    ChainShape shape;
    shape.points = points;
    shape.places = 4;
    shape.covers = 7;
    shape.two_lines = shape.joints = two_lines;
    return random_chain(shape, seed);
}

// No detour is shorter than the way.
Problem with_shortest_ways(Problem problem) {
    const Outline outline(problem);
    problem.workshop = problem.workshop.with_places(problem.workshop.places(), outline.shortest);
    return problem;
}

}  // namespace

TEST_CASE("The bound by blocks is never above the proven optimum of a chain") {
    double blocks = 0, before = 0;
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        const Problem problem = chain(18, seed % 3 == 0, seed);
        const Solution least = solve(problem);
        REQUIRE(least.proven);
        for (const std::uint64_t states : {1U, 60U, 150U, 400U, 1200U}) {
            CAPTURE(states);
            CHECK(bound_of(problem, states) <= least.best.expected_minutes + 1e-9);
        }
        blocks += bound_of(problem, 400);
        before += lower_bound(problem);
    }
    CHECK(blocks > 1.2 * before);  // 1.28 when this was written
}

TEST_CASE("Telling blocks apart is not charged for more than the cheapest plan pays") {
    // Walks, covers and looks cost next to nothing, so that the tests are nearly all there is.
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        Problem problem = chain(16, false, seed);
        const std::size_t places = problem.workshop.places();
        problem.workshop = access::Workshop({}, places, std::vector<double>(places * places, 0.0));
        for (Test& test : problem.tests) test.site.need = 0;
        for (access::Site& site : problem.bare) site = {site.place, 0, seed % 2 == 0 ? 0.9 : 2.5};
        const double least = solve(problem).best.expected_minutes;
        for (const std::uint64_t states : {1U, 30U, 100U, 300U})
            CHECK(bound_of(problem, states) <= least + 1e-9);
    }
}

TEST_CASE("The bound by blocks is never above the best of all plans") {
    for (unsigned seed = 1; seed <= 150; ++seed) {
        CAPTURE(seed);
        Problem problem = with_shortest_ways(random_anything(4 + seed % 5, 3 + seed % 4, 2, seed));
        CHECK(bound_of(problem, 1) <= brute_force(problem).expected + 1e-9);
        problem.bare.clear();
        CHECK(bound_of(problem, 1) <= brute_force(problem).expected + 1e-9);
    }
}

TEST_CASE("Where a detour is shorter than the way, blocks say nothing") {
    Problem problem = chain(18, false, 1);
    CHECK(bound_of(problem, 100) > 0);
    const std::size_t places = problem.workshop.places();
    std::vector<double> travel(places * places, 1);
    for (std::size_t place = 0; place < places; ++place) travel[place * places + place] = 0;
    travel[1] = 100;
    problem.workshop = problem.workshop.with_places(places, travel);
    CHECK(bound_of(problem, 100) == 0);
}

TEST_CASE(
    "Beyond proof the bound lies below the optimum and the plan above it, and more states close the gap") {
    double wide = 0, narrow = 0;
    for (unsigned seed = 1; seed <= 12; ++seed) {
        CAPTURE(seed);
        const Problem problem = chain(26, false, seed);
        const double least = solve(problem).best.expected_minutes;
        for (const std::uint64_t states : {20U, 100U, 400U}) {
            const Solution known = solve(problem, {states, Looks::AnyTime, states});
            CHECK(known.lower_bound <= least + 1e-9);
            CHECK(known.best.expected_minutes >= least - 1e-9);
            const double gap = known.best.expected_minutes / known.lower_bound - 1;
            if (states == 20) wide += gap;
            if (states == 400) narrow += gap;
        }
    }
    CHECK(narrow < 0.7 * wide);
}

}  // namespace halfsplit::plan
