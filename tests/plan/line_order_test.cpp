#include "plan/line_order.hpp"

#include "plan/random_problem.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <random>

namespace halfsplit::plan {

namespace {

// Hypotheses in any order, and each test's outcomes by any numbers: nothing but the outcomes tells the line.
Problem shuffled(Problem problem, unsigned seed) {
    std::mt19937 engine(seed);
    std::vector<std::size_t> from(problem.hypotheses.size());
    for (std::size_t h = 0; h < from.size(); ++h) {
        from[h] = h;
        std::swap(from[h], from[engine() % (h + 1)]);
    }
    Problem result = problem;
    for (std::size_t h = 0; h < from.size(); ++h) result.hypotheses[h] = problem.hypotheses[from[h]];
    for (std::size_t t = 0; t < problem.tests.size(); ++t) {
        const std::uint8_t turned = engine() % 2;
        for (std::size_t h = 0; h < from.size(); ++h)
            result.tests[t].outcome[h] = problem.tests[t].outcome[from[h]] ^ turned;
    }
    return result;
}

std::optional<std::vector<std::uint32_t>> order_of(const Problem& problem, std::size_t& changes) {
    const Outline outline(problem);
    const Model model(outline, outline.prior());
    const auto order = line_order(model);
    changes = 0;
    if (order)
        for (const PlannedTest& test : model.tests) {
            std::size_t own = 0;
            for (std::size_t i = 1; i < order->size(); ++i)
                own += model.alike(test, (*order)[i]) != model.alike(test, (*order)[i - 1]) ? 1 : 0;
            changes = std::max(changes, own);
        }
    return order;
}

}  // namespace

TEST_CASE("The order along a chain is found from the outcomes alone") {
    for (unsigned seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        ChainShape shape;
        shape.points = 20 + seed;
        std::size_t changes = 0;
        const auto order = order_of(shuffled(random_chain(shape, seed), seed), changes);
        REQUIRE(order);
        CHECK(changes == 1);  // each test shows one outcome up to a suspect and another after it
    }
}

TEST_CASE("Where tests do not cut one line no order is made up") {
    ChainShape shape;
    shape.two_lines = true;
    std::size_t changes = 0;
    for (unsigned seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        CHECK_FALSE(order_of(random_chain(shape, seed), changes));
        CHECK_FALSE(order_of(random_anything(12, 8, 2, seed), changes));
    }
}

}  // namespace halfsplit::plan
