#include "halfsplit/plan/bounds.hpp"

#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/rules.hpp"

#include "plan/brute_force.hpp"
#include "plan/random_problem.hpp"
#include "support/catch.hpp"

#include <cmath>
#include <limits>
#include <stdexcept>

namespace halfsplit::plan {

namespace {

ChainShape larger(bool two_lines) {
    ChainShape shape;
    shape.points = 12;
    shape.places = 4;
    shape.covers = 6;
    shape.two_lines = shape.joints = two_lines;
    return shape;
}

}  // namespace

TEST_CASE("Huffman's length is that of worked examples") {
    // By hand: 1+1=2, 2+2=4, 3+4=7 and 7+4=11 merge to 24.
    CHECK(huffman({1, 1, 2, 3, 4}, 2) == Approx(24));
    CHECK(huffman({0.5, 0.25, 0.125, 0.125}, 2) == Approx(1.75));
    CHECK(huffman({1, 1, 1, 1}, 4) == Approx(4));
    CHECK(huffman({1, 1, 1, 1}, 3) == Approx(6));  // two merge first, then three
    CHECK(huffman({5}, 2) == 0);
    CHECK(huffman({}, 2) == 0);
}

TEST_CASE("Huffman's length lies between the entropy and one more") {
    for (unsigned seed = 1; seed <= 50; ++seed) {
        std::vector<double> weights;
        double entropy = 0;
        for (const Hypothesis& hypothesis : random_anything(30, 1, 2, seed).hypotheses)
            weights.push_back(hypothesis.probability);
        double sum = 0;
        for (const double weight : weights) sum += weight;
        for (double& weight : weights) weight /= sum;
        for (const double weight : weights) entropy -= weight > 0 ? weight * std::log2(weight) : 0;
        CHECK(huffman(weights, 2) >= entropy - 1e-9);
        CHECK(huffman(weights, 2) <= entropy + 1);
        CHECK(huffman(weights, 3) <= huffman(weights, 2) + 1e-9);
        CHECK(huffman(weights, 3) >= entropy / std::log2(3.0) - 1e-9);
    }
}

TEST_CASE("Huffman's length refuses what is no code") {
    CHECK_THROWS_AS(huffman({1, 1}, 1), std::invalid_argument);
    CHECK_THROWS_AS(huffman({1, -1}, 2), std::invalid_argument);
    CHECK_THROWS_AS(huffman({std::numeric_limits<double>::quiet_NaN()}, 2), std::invalid_argument);
}

TEST_CASE("The lower bound is never above the best of all plans") {
    for (unsigned seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        Problem problem = random_anything(3 + seed % 6, 2 + seed % 5, 2 + seed % 3, seed);
        CHECK(lower_bound(problem) <= brute_force(problem).expected + 1e-9);
        // Looks that cost next to nothing: laying bare then replaces tests, and a code length would be too
        // much.
        for (access::Site& site : problem.bare) site.minutes *= 0.05;
        CHECK(lower_bound(problem) <= brute_force(problem).expected + 1e-9);
        problem.bare.clear();
        CHECK(lower_bound(problem) <= brute_force(problem).expected + 1e-9);
    }
}

TEST_CASE("The lower bound is never above the proven optimum and says more than nothing") {
    for (unsigned seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        const Problem problem = random_chain(larger(seed % 2 == 0), seed);
        const double least = solve(problem).best.expected_minutes;
        CHECK(lower_bound(problem) <= least + 1e-9);
        CHECK(lower_bound(problem) >= least / 4);
    }
}

TEST_CASE("A likely element that may be looked at first is not charged for a test") {
    Problem problem;
    problem.hypotheses = {{0.99, 0}, {0.01, 1}};
    problem.tests = {{{0, 0, 1}, {0, 1}}};
    problem.bare = {{0, 0, 3}, {0, 0, 3}};
    CHECK(lower_bound(problem) <= 3.03 + 1e-12);
    CHECK(solve(problem).best.expected_minutes == Approx(3.03));
    CHECK(solve(problem).best.step == Step::LayBare);
}

TEST_CASE("No rule of thumb beats the optimum") {
    for (unsigned seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        const Problem problem = random_chain(larger(seed % 2 == 0), seed);
        const double least = solve(problem).best.expected_minutes;
        for (const Rule rule : {Rule::HalfByCount, Rule::HalfByProbability, Rule::InformationPerMinute,
                                Rule::Walk, Rule::Rollout}) {
            const Choice choice = follow(problem, rule);
            CHECK(choice.expected_minutes >= least - 1e-9);
            CHECK(choice.worst_minutes >= choice.expected_minutes - 1e-9);
            CHECK(choice.minutes_now <= choice.expected_minutes + 1e-9);
        }
    }
}

}  // namespace halfsplit::plan
