// Against every plan there is, by the pairs of expected and worst minutes that no other plan beats in both.
#include "halfsplit/plan/one_step.hpp"
#include "halfsplit/plan/policy.hpp"

#include "plan/random_problem.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <map>
#include <numeric>

namespace halfsplit::plan {

namespace {

constexpr double rounding = 1e-9;

struct Pair {
    double expected = 0, worst = 0;  // the first weighted
};

// Those that no other beats, by rising worst case and falling expected minutes.
std::vector<Pair> unbeaten(std::vector<Pair> pairs) {
    std::sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) {
        return a.worst != b.worst ? a.worst < b.worst : a.expected < b.expected;
    });
    std::vector<Pair> result;
    for (const Pair& pair : pairs) {
        if (!result.empty() && pair.expected >= result.back().expected) continue;
        const bool same_worst = !result.empty() && pair.worst <= result.back().worst + rounding;
        if (same_worst)
            result.back().expected = pair.expected;
        else
            result.push_back(pair);
    }
    return result;
}

std::vector<Pair> side_by_side(const std::vector<Pair>& one, const std::vector<Pair>& other) {
    std::vector<Pair> result;
    for (const Pair& a : one)
        for (const Pair& b : other) result.push_back({a.expected + b.expected, std::max(a.worst, b.worst)});
    return unbeaten(std::move(result));
}

class EveryPlan {
  public:
    explicit EveryPlan(const Problem& problem) : problem_(problem) {
        for (const Hypothesis& own : problem.hypotheses) probability_.push_back(own.probability);
        for (const Hypothesis& own : problem.hypotheses)
            if (own.then != cured && own.probability > 0) probability_[own.then] = own.probability;
    }

    std::vector<Pair> run() const {
        std::vector<std::size_t> all;
        double total = 0;
        for (std::size_t h = 0; h < problem_.hypotheses.size(); ++h) {
            total += problem_.hypotheses[h].probability;
            if (problem_.hypotheses[h].probability > 0) all.push_back(h);
        }
        std::vector<Pair> pairs = from(all, problem_.start);
        for (Pair& pair : pairs) pair.expected /= total;
        return pairs;
    }

  private:
    std::vector<Pair> from(const std::vector<std::size_t>& suspects, const access::Standing& standing) const {
        std::vector<Pair> pairs;
        for (const Test& test : problem_.tests) {
            std::map<int, std::vector<std::size_t>> left;
            for (const std::size_t h : suspects) left[test.outcome[h]].push_back(h);
            if (left.size() < 2 || one_element(suspects)) continue;
            std::vector<Pair> behind{{0, 0}};
            for (const auto& [outcome, own] : left)
                behind = side_by_side(behind, from(own, after(test.site, standing)));
            add(pairs, behind, test.site, suspects, standing);
        }
        for (std::size_t e = 0; e < problem_.bare.size(); ++e) {
            std::vector<std::size_t> left;
            for (const std::size_t h : suspects)
                if (problem_.hypotheses[h].element != e) left.push_back(h);
            const std::vector<std::size_t> next = going_on(suspects, e);
            if (left.size() == suspects.size()) continue;
            const access::Standing then = after(problem_.bare[e], standing);
            std::vector<Pair> behind{{0, 0}};
            if (!left.empty()) behind = from(left, then);
            if (!next.empty()) behind = side_by_side(behind, from(next, then));
            add(pairs, behind, problem_.bare[e], suspects, standing);
        }
        if (pairs.empty()) return {{0, 0}};
        return unbeaten(std::move(pairs));
    }

    std::vector<std::size_t> going_on(const std::vector<std::size_t>& suspects, std::size_t element) const {
        std::vector<std::size_t> next;
        for (const std::size_t h : suspects)
            if (problem_.hypotheses[h].element == element && problem_.hypotheses[h].then != cured)
                next.push_back(problem_.hypotheses[h].then);
        return next;
    }

    bool one_element(const std::vector<std::size_t>& suspects) const {
        return !problem_.bare.empty() && std::all_of(suspects.begin(), suspects.end(), [&](std::size_t h) {
            return problem_.hypotheses[h].then == cured &&
                   problem_.hypotheses[h].element == problem_.hypotheses[suspects.front()].element;
        });
    }

    access::Standing after(const access::Site& site, const access::Standing& standing) const {
        return {site.place, standing.off | problem_.workshop.closure(site.need)};
    }

    void add(std::vector<Pair>& pairs, const std::vector<Pair>& behind, access::Site site,
             const std::vector<std::size_t>& suspects, const access::Standing& standing) const {
        site.need = problem_.workshop.closure(site.need);
        const double now = problem_.workshop.reach(site, standing.place, standing.off);
        double weight = 0;
        for (const std::size_t h : suspects) weight += probability_[h];
        for (const Pair& pair : behind) pairs.push_back({weight * now + pair.expected, now + pair.worst});
    }

    const Problem& problem_;
    std::vector<double> probability_;  // what another goes on to is as likely as that one
};

// The policy's own worth, by its minutes.
Pair worth(const Policy& policy, const Problem& problem) {
    Pair pair;
    double total = 0;
    for (std::size_t h = 0; h < problem.hypotheses.size(); ++h) {
        const double chance = problem.hypotheses[h].probability;
        if (chance <= 0) continue;
        total += chance;
        pair.expected += chance * policy.minutes[h];
        pair.worst = std::max(pair.worst, policy.minutes[h]);
    }
    pair.expected /= total;
    return pair;
}

void check_objectives(const Problem& problem, std::size_t& trades) {
    const std::vector<Pair> pairs = EveryPlan(problem).run();
    trades += pairs.size() > 1 ? 1 : 0;
    const Policy least_worst = policy(problem, {}, {.least_worst = true});
    CHECK(least_worst.solution.proven);
    CHECK(worth(least_worst, problem).worst == Approx(pairs.front().worst).margin(rounding));
    CHECK(worth(least_worst, problem).expected == Approx(pairs.front().expected).margin(rounding));
    CHECK(least_worst.worst_lower_bound == Approx(pairs.front().worst).margin(rounding));
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        // Just kept, and as loose as it may be before the next plan comes in.
        for (const double cap :
             {pairs[i].worst,
              i + 1 < pairs.size() ? (pairs[i].worst + pairs[i + 1].worst) / 2 : pairs[i].worst + 5}) {
            const Policy capped = policy(problem, {}, {.worst_at_most = cap});
            CHECK(capped.solution.proven);
            CHECK(worth(capped, problem).worst <= cap + rounding);
            CHECK(worth(capped, problem).expected == Approx(pairs[i].expected).margin(rounding));
            CHECK(capped.solution.best.expected_minutes == Approx(pairs[i].expected).margin(rounding));
            CHECK(capped.solution.lower_bound == Approx(pairs[i].expected).margin(rounding));
        }
    }
    if (pairs.front().worst > 1) {
        const Policy beyond = policy(problem, {}, {.worst_at_most = pairs.front().worst - 1});
        CHECK(worth(beyond, problem).worst == Approx(pairs.front().worst).margin(rounding));
        CHECK(beyond.worst_lower_bound == Approx(pairs.front().worst).margin(rounding));
    }
}

}  // namespace

TEST_CASE("The least worst case, and the least expected minutes under a cap, are those of every plan") {
    std::size_t trades = 0;
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        check_objectives(random_anything(5, 4, seed % 3 == 0 ? 3 : 2, seed), trades);
    }
    for (unsigned seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        ChainShape shape;
        shape.points = 4;
        shape.bare = seed % 5 != 0;
        check_objectives(random_chain(shape, seed), trades);
    }
    for (unsigned seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        check_objectives(with_pairs(random_anything(4, 3, 2, seed), 1 + seed % 2, seed), trades);
    }
    CHECK(trades > 20);  // else a plan without an objective would pass
}

TEST_CASE("With more suspects than a group, what is at hand is looked at before the test elsewhere") {
    // One part at the start, eight at a place ten minutes away, where the test splits five from four.
    Problem problem;
    problem.workshop = access::Workshop({}, 2, {0, 10, 10, 0});
    problem.tests = {{{1, 0, 2}, {}}};
    for (std::size_t element = 0; element < 9; ++element) {
        problem.bare.push_back({element == 0 ? 0U : 1U, 0, 1});
        problem.hypotheses.push_back({1, element});
        problem.tests[0].outcome.push_back(element < 5 ? 0 : 1);
    }
    REQUIRE(problem.bare.size() > exact_group);
    // Look, go, test, four looks. The test first would be 2 and a way back more than that, looks alone 19.
    CHECK(policy(problem, {}, {.least_worst = true}).solution.best.worst_minutes == Approx(1 + 10 + 2 + 4));
}

TEST_CASE("A test of many outcomes is worth as many tests of two in the bound of the worst case") {
    // One splits eighteen parts in two, two tell the parts of a half apart, and a dear one tells all apart.
    // By chance the likeliest is looked at first; in the worst case that is a look too many.
    Problem problem;
    problem.tests = {{{0, 0, 1}, {}}, {{0, 0, 1}, {}}, {{0, 0, 1}, {}}, {{0, 0, 4}, {}}};
    for (std::uint8_t element = 0; element < 18; ++element) {
        const bool first = element < 9;
        problem.bare.push_back({0, 0, 1});
        problem.hypotheses.push_back({element == 0 ? 1000.0 : 1.0, element});
        problem.tests[0].outcome.push_back(first ? 0 : 1);
        problem.tests[1].outcome.push_back(first ? element : std::uint8_t{9});
        problem.tests[2].outcome.push_back(first ? std::uint8_t{0} : element);
        problem.tests[3].outcome.push_back(element);
    }
    const Policy least = policy(problem, {}, {.least_worst = true});
    CHECK(least.solution.best.worst_minutes == Approx(1 + 1 + 1));  // two tests and a look
    CHECK(least.worst_lower_bound <= 3 + rounding);
}

TEST_CASE("On larger chains objectives keep their order and their caps") {
    for (unsigned seed = 1; seed <= 6; ++seed) {
        CAPTURE(seed);
        ChainShape shape;
        shape.points = 12;
        shape.covers = 6;
        const Problem problem = random_chain(shape, seed);
        const Pair expected = worth(policy(problem), problem);
        const Policy least = policy(problem, {}, {.least_worst = true});
        const Pair worst = worth(least, problem);
        CHECK(worst.worst <= expected.worst + rounding);
        CHECK(worst.expected >= expected.expected - rounding);
        CHECK(least.worst_lower_bound <= worst.worst + rounding);
        const Policy between = policy(problem, {}, {.worst_at_most = (worst.worst + expected.worst) / 2});
        CHECK(worth(between, problem).worst <= (worst.worst + expected.worst) / 2 + rounding);
        CHECK(worth(between, problem).expected >= expected.expected - rounding);
        CHECK(worth(between, problem).expected <= worst.expected + rounding);
    }
}

TEST_CASE("An objective whose states run out still gives a plan, and bounds on their side") {
    for (unsigned seed = 1; seed <= 6; ++seed) {
        ChainShape shape;
        shape.points = 8;
        const Problem problem = random_chain(shape, seed);
        const double least = policy(problem, {}, {.least_worst = true}).solution.best.worst_minutes;
        for (const std::uint64_t states : {0U, 1U, 5U, 30U}) {
            CAPTURE(seed, states);
            const Policy cut = policy(problem, {states, Looks::AnyTime, states}, {.least_worst = true});
            CHECK(cut.worst_lower_bound <= least + rounding);
            CHECK(cut.solution.best.worst_minutes >= least - rounding);
            CHECK(cut.solution.best.worst_minutes == Approx(worth(cut, problem).worst));
            if (cut.solution.proven) CHECK(cut.solution.best.worst_minutes == Approx(least));
        }
    }
}

TEST_CASE("One step ahead begins as the plan for the objective does") {
    for (unsigned seed = 1; seed <= 12; ++seed) {
        CAPTURE(seed);
        ChainShape shape;
        shape.points = 7;
        const Problem problem = random_chain(shape, seed);
        OneStepOptions options;
        options.ignored = 0;
        options.objective.least_worst = true;
        const Recommendation advice = one_step(problem, options);
        const Policy plan = policy(problem, options.limits, options.objective);
        REQUIRE_FALSE(advice.options.empty());
        const Option& first = advice.options.front();
        CHECK(first.choice.step == plan.steps.front().step);
        CHECK(first.choice.index == plan.steps.front().index);
        CHECK(first.choice.worst_minutes == Approx(plan.solution.best.worst_minutes));
        CHECK(advice.worst_lower_bound == Approx(plan.worst_lower_bound));
        double left = first.choice.minutes_now, chance = 0;
        for (const OutcomeView& outcome : first.outcomes) {
            left += outcome.chance * outcome.expected_minutes_left;
            chance += outcome.chance;
        }
        CHECK(chance == Approx(1));
        CHECK(left == Approx(first.choice.expected_minutes));
        for (std::size_t i = 1; i < advice.options.size(); ++i)
            CHECK_FALSE((advice.options[i].choice.step == first.choice.step &&
                         advice.options[i].choice.index == first.choice.index));
    }
}

TEST_CASE("The minutes of an option, hypothesis by hypothesis, make up its expected minutes") {
    std::size_t itemised = 0;
    for (unsigned seed = 1; seed <= 12; ++seed) {
        CAPTURE(seed);
        ChainShape shape;
        shape.points = 6;
        shape.two_lines = seed % 2 == 0;
        const Problem problem = random_chain(shape, seed);
        OneStepOptions options;
        options.ignored = 0;
        const double total = total_probability(problem);
        for (const Option& option : one_step(problem, options).options) {
            if (option.minutes.empty()) continue;
            ++itemised;
            double expected = 0;
            for (std::size_t h = 0; h < problem.hypotheses.size(); ++h)
                expected += problem.hypotheses[h].probability / total * option.minutes[h];
            CHECK(expected == Approx(option.choice.expected_minutes));
        }
    }
    CHECK(itemised >= 24);
}

}  // namespace halfsplit::plan
