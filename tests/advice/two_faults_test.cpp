#include "halfsplit/diagnosis/fault.hpp"

#include "advice/problem.hpp"
#include "support/advice_bench.hpp"
#include "support/catch.hpp"

#include <algorithm>

namespace halfsplit::advice {

namespace {

using diagnosis::Explanation;
using diagnosis::Fault;

const Fault& fault(const std::vector<Fault>& all, const harness::Harness& harness, const std::string& name) {
    const auto own = std::find_if(all.begin(), all.end(),
                                  [&](const Fault& one) { return diagnosis::name(harness, one) == name; });
    REQUIRE(own != all.end());
    return *own;
}

// Believes in these explanations alone.
struct Bench : test::AdviceBench {
    Posed posed(const std::vector<Explanation>& explanations, const std::vector<double>& probability) {
        belief = {};
        belief.explanations = explanations;
        belief.probability = probability;
        return pose({standing(), {}, {}}, predictor);
    }
    Explanation with(const std::vector<std::string>& names) {
        const auto all = diagnosis::all_faults(harness, predictor.circuit(0).assembly);
        Explanation result;
        for (const std::string& name : names) result.faults.push_back(fault(all, harness, name));
        return result;
    }
    std::string part_of(const Posed& posed, const plan::Hypothesis& hypothesis) const {
        return harness.parts[posed.part_of_element[hypothesis.element]].id;
    }
};

}  // namespace

TEST_CASE("Of two faults the likelier part is found first, and then the other one is what is wrong") {
    Bench bench;
    const Explanation both = bench.with({"X1:receded-h@4", "X2:receded-l@2"});
    const Explanation first = bench.with({"X1:receded-h@4"}), second = bench.with({"X2:receded-l@2"});
    const Posed posed = bench.posed({both, first, second}, {0.3, 0.5, 0.2});
    const auto& hypotheses = posed.problem.hypotheses;
    const auto pair = std::find_if(hypotheses.begin(), hypotheses.end(),
                                   [](const plan::Hypothesis& own) { return own.then != plan::cured; });
    REQUIRE(pair != hypotheses.end());
    REQUIRE(pair->then < hypotheses.size());
    const plan::Hypothesis& next = hypotheses[pair->then];
    CHECK(bench.part_of(posed, *pair) == "X1");
    CHECK(bench.part_of(posed, next) == "X2");
    CHECK(pair->probability == Approx(0.3));
    CHECK(next.probability == 0);
    // Mended, the first is no longer in any reading: what is left reads as the second by itself.
    const auto alone = std::find_if(hypotheses.begin(), hypotheses.end(), [&](const plan::Hypothesis& own) {
        return own.element == next.element && own.probability > 0;
    });
    REQUIRE(alone != hypotheses.end());
    const auto index = [&](auto it) { return static_cast<std::size_t>(it - hypotheses.begin()); };
    for (const plan::Test& test : posed.problem.tests)
        CHECK(test.outcome[pair->then] == test.outcome[index(alone)]);
    CHECK_NOTHROW(plan::require_sound(posed.problem));
}

TEST_CASE("Two faults that are unlikely beside the rest end the hunt at the first find") {
    Bench bench;
    const Posed posed = bench.posed({bench.with({"X1:receded-h@4", "X2:receded-l@2"}),
                                     bench.with({"X1:receded-h@4"}), bench.with({"S1:short"})},
                                    {0.004, 0.5, 0.496});
    for (const plan::Hypothesis& own : posed.problem.hypotheses) CHECK(own.then == plan::cured);
}

TEST_CASE("Two faults cost the plan both finds") {
    Bench bench;
    const Posed both = bench.posed({bench.with({"X1:receded-h@4", "X2:receded-l@2"})}, {1});
    const Posed one = bench.posed({bench.with({"X1:receded-h@4"})}, {1});
    const double first = plan::solve(one.problem).best.expected_minutes;
    const double whole = plan::solve(both.problem).best.expected_minutes;
    const access::Site x1 = bench.costs.look(harness::find_part(bench.harness, "X1"));
    const access::Site x2 = bench.costs.look(harness::find_part(bench.harness, "X2"));
    CHECK(whole == Approx(first + bench.costs.workshop().reach(x2, x1.place, x1.need)));
}

}  // namespace halfsplit::advice
