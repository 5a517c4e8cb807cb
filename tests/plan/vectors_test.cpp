// Worked examples, each with its source beside it in tests/data/planner_vectors.json.
#include "plan/vectors.hpp"

#include "halfsplit/plan/bounds.hpp"
#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/policy.hpp"
#include "halfsplit/plan/rules.hpp"

#include "support/catch.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

namespace halfsplit::plan {

namespace {

using nlohmann::json;

// The vectors' covers have no closing cost; travel is between positions on a line, from 0.
Problem probed_chain(const json& vector) {
    Problem problem = chain(numbers(vector.at("priors")));
    std::vector<access::Cover> covers;
    std::vector<std::string> names;
    if (vector.contains("panel_open_costs"))
        for (const auto& [name, minutes] : vector.at("panel_open_costs").items()) {
            names.push_back(name);
            covers.push_back({number(minutes), 0, 0});
        }
    const std::size_t places = vector.at("travel") == "none" ? 1 : problem.tests.size() + 1;
    std::vector<double> travel;
    for (std::size_t a = 0; a < places; ++a)
        for (std::size_t b = 0; b < places; ++b)
            travel.push_back(std::abs(static_cast<double>(a) - static_cast<double>(b)));
    problem.workshop = access::Workshop(covers, places, travel);
    for (std::size_t k = 0; k < problem.tests.size(); ++k) {
        access::Site& site = problem.tests[k].site;
        site.minutes = number(vector.at("probe_costs")[k]);
        if (places > 1) site.place = k + 1;
        if (!vector.contains("panel_of_probe") || vector.at("panel_of_probe")[k].is_null()) continue;
        for (std::size_t c = 0; c < names.size(); ++c)
            if (names[c] == vector.at("panel_of_probe")[k].get<std::string>())
                site.need = access::CoverSet{1} << c;
    }
    return problem;
}

// What is still suspected where the plan ends, in order of its first.
std::vector<std::vector<std::size_t>> groups_left(const Policy& policy, const Problem& problem) {
    std::vector<std::vector<std::size_t>> groups;
    for (const PolicyStep& step : policy.steps)
        for (const PolicyStep::Branch& branch : step.branches) {
            if (branch.next != Policy::over) continue;
            groups.emplace_back();
            for (const std::size_t h : step.suspects)
                if (problem.tests[step.index].outcome[h] == branch.outcome) groups.back().push_back(h);
        }
    std::sort(groups.begin(), groups.end());
    return groups;
}

}  // namespace

TEST_CASE("One lead at the end of a chain makes the optimal alphabetic tree") {
    for (const json& one : vectors_of_kind("alphabetic_tree")) {
        INFO(one.at("id"));
        const std::vector<double> weights = numbers(one.at("weights"));
        const Solution solution = solve(chain(weights));
        CHECK(solution.proven);
        CHECK(solution.best.expected_minutes * sum(weights) ==
              Approx(number(one.at("optimal_cost"))).epsilon(1e-12));
        CHECK(huffman(weights, 2) == Approx(number(one.at("huffman_cost_lower_bound"))).epsilon(1e-12));
        CHECK(lower_bound(chain(weights)) * sum(weights) ==
              Approx(number(one.at("huffman_cost_lower_bound"))).epsilon(1e-12));
    }
}

// Comparing with a key tells less, more, or that it is the one. A key counts as found by comparing with it,
// not by ruling out all else: so each is two hypotheses that only this tells apart. The source counts one
// more for each gap than comparisons are made.
TEST_CASE("Comparing with keys makes the optimal search tree") {
    for (const json& one : vectors_of_kind("optimal_bst")) {
        INFO(one.at("id"));
        const std::vector<double> keys = numbers(one.at("p")), gaps = numbers(one.at("q"));
        Problem problem;
        std::vector<std::size_t> rank;  // by hypothesis: gaps are even, keys odd
        const auto add = [&](double weight, std::size_t where) {
            problem.hypotheses.push_back({weight, rank.size()});
            rank.push_back(where);
        };
        for (std::size_t i = 0; i < gaps.size(); ++i) {
            add(gaps[i], 2 * i);
            if (i == keys.size()) break;
            add(keys[i] / 2, 2 * i + 1);
            add(keys[i] / 2, 2 * i + 1);
        }
        for (std::size_t key = 0; key < keys.size(); ++key) {
            problem.tests.push_back({{0, 0, 1}, {}});
            for (std::size_t h = 0; h < rank.size(); ++h) {
                const std::size_t own = 2 * key + 1;
                const std::uint8_t found = h > 0 && rank[h - 1] == own ? 3 : 2;
                problem.tests.back().outcome.push_back(rank[h] < own   ? std::uint8_t{0}
                                                       : rank[h] > own ? std::uint8_t{1}
                                                                       : found);
            }
        }
        const double weight = sum(keys) + sum(gaps);
        const Solution solution = solve(problem);
        CHECK(solution.proven);
        CHECK(solution.best.expected_minutes * weight + sum(gaps) ==
              Approx(number(one.at("expected"))).epsilon(1e-12));
        CHECK(solution.best.index + 1 == one.at("root").get<std::size_t>());
    }
}

TEST_CASE("The test-sequencing table costs what its authors found, whatever the tree") {
    const json& one = vector_named("pattipati_alexandridis_6x5");
    Problem problem;
    const std::vector<double> priors = numbers(one.at("priors"));
    for (std::size_t h = 0; h < priors.size(); ++h) problem.hypotheses.push_back({priors[h], h});
    for (std::size_t t = 0; t < 5; ++t) {
        problem.tests.push_back({{0, 0, number(one.at("costs")[t])}, {}});
        for (std::size_t h = 0; h < priors.size(); ++h)
            problem.tests[t].outcome.push_back(one.at("D")[h][t].get<std::uint8_t>());
    }
    const Solution solution = solve(problem, {}, 4);
    CHECK(solution.proven);
    CHECK(solution.best.expected_minutes == Approx(number(one.at("expected_optimal_cost"))).epsilon(1e-12));
    CHECK(solution.best.index + 1 == one.at("optimal_root_tests")[0].get<std::size_t>());
    REQUIRE(solution.ranked.size() == 5);
    for (const Choice& choice : solution.ranked)
        CHECK(choice.expected_minutes ==
              Approx(number(one.at("best_cost_by_root_test").at("t" + std::to_string(choice.index + 1))))
                  .epsilon(1e-12));
    CHECK(lower_bound(problem) == Approx(number(one.at("huffman_lower_bound"))).epsilon(1e-12));
    CHECK(follow(problem, Rule::InformationPerMinute).expected_minutes ==
          Approx(number(one.at("greedy_info_gain_cost"))).epsilon(1e-12));
}

TEST_CASE("Chains with unequal, shared and distant probes cost what enumeration gives", "[long]") {
    for (const json& one : vectors_of_kind("chain_single_open_probe")) {
        INFO(one.at("id"));
        const Problem problem = probed_chain(one);
        const Solution solution = solve(problem);
        CHECK(solution.proven);
        CHECK(solution.best.expected_minutes ==
              Approx(number(one.at("optimal_expected_cost"))).epsilon(1e-12));
        CHECK(solution.best.index + 1 == one.at("optimal_first_probe").get<std::size_t>());
        const auto rule = [&](Rule which, const char* name) {
            CHECK(follow(problem, which).expected_minutes ==
                  Approx(number(one.at("baselines").at(name))).epsilon(1e-12));
        };
        // The vectors break ties towards the near end, the rule towards the cheaper probe: where that matters
        // it wins.
        CHECK(follow(problem, Rule::HalfByCount).expected_minutes <=
              number(one.at("baselines").at("half_split_by_count(lower middle)")) + 1e-12);
        rule(Rule::HalfByProbability, "half_split_by_probability");
        rule(Rule::InformationPerMinute, "greedy_info_gain_per_cost");
        rule(Rule::Walk, "walk_from_left");
    }
}

TEST_CASE("Halving equal segments costs what the closed forms say") {
    for (const json& one : vectors_of_kind("half_split")) {
        INFO(one.at("id"));
        const Problem problem =
            chain(std::vector<double>(one.at("n_equal_segments").get<std::size_t>(), 1.0));
        const Choice halved = follow(problem, Rule::HalfByCount), walked = follow(problem, Rule::Walk);
        CHECK(halved.expected_minutes == Approx(number(one.at("half_split_mean"))).epsilon(1e-12));
        CHECK(halved.worst_minutes == Approx(number(one.at("half_split_max"))));
        CHECK(walked.expected_minutes == Approx(number(one.at("end_to_end_walk_mean"))).epsilon(1e-12));
        CHECK(walked.worst_minutes == Approx(number(one.at("end_to_end_walk_max"))));
        CHECK(solve(problem).best.expected_minutes ==
              Approx(number(one.at("half_split_mean"))).epsilon(1e-12));
    }
}

TEST_CASE("With both leads free the plan lies between Huffman and the alphabetic tree") {
    for (const json& one : vectors_of_kind("two_point_interval_tests")) {
        INFO(one.at("id"));
        const std::vector<double> weights = numbers(one.at("weights"));
        const double total = sum(weights);
        Problem problem = chain(weights);
        const double prefix = solve(problem).best.expected_minutes * total;
        CHECK(prefix == Approx(number(one.at("prefix_only_optimum"))).epsilon(1e-12));
        problem.tests.clear();
        for (std::size_t from = 0; from < weights.size(); ++from)
            for (std::size_t to = from + 1; to <= weights.size(); ++to) {
                problem.tests.push_back({{0, 0, 1}, Outcomes(weights.size(), 0)});
                for (std::size_t s = from; s < to; ++s) problem.tests.back().outcome[s] = 1;
            }
        const double interval = solve(problem).best.expected_minutes * total;
        CHECK(interval == Approx(number(one.at("any_two_point_interval_optimum"))).epsilon(1e-12));
        CHECK(interval <= prefix + 1e-9);
        CHECK(interval >= number(one.at("huffman_lower_bound")) - 1e-9);
    }
}

TEST_CASE("Without tests elements are laid bare by probability per minute") {
    const json& one = vector_named("p_over_c_3");
    Problem problem;
    for (std::size_t e = 0; e < 3; ++e) {
        problem.hypotheses.push_back({number(one.at("p")[e]), e});
        problem.bare.push_back({0, 0, number(one.at("c")[e])});
    }
    const Solution solution = solve(problem);
    CHECK(solution.best.step == Step::LayBare);
    CHECK(solution.best.index + 1 == one.at("optimal_order")[0].get<std::size_t>());
    CHECK(solution.best.expected_minutes == Approx(number(one.at("expected_cost"))).epsilon(1e-12));
}

// What no test tells apart stays together at the end of every path of the plan.
TEST_CASE("A plan leaves the groups of the testability tables, in as few tests as they say") {
    for (const json& one : vectors_of_kind("testability_metrics")) {
        INFO(one.at("id"));
        const std::vector<double> priors = numbers(one.at("priors"));
        Problem problem;
        for (std::size_t h = 0; h < priors.size(); ++h) problem.hypotheses.push_back({priors[h], h});
        for (std::size_t t = 0; t < one.at("D")[0].size(); ++t) {
            problem.tests.push_back({{0, 0, 1}, {}});
            for (const json& row : one.at("D"))
                problem.tests.back().outcome.push_back(row[t].get<std::uint8_t>());
        }
        const Policy plan = policy(problem);
        CHECK(plan.solution.proven);
        CHECK(plan.solution.best.expected_minutes ==
              Approx(number(one.at("optimal_mean_tests"))).epsilon(1e-12));
        const std::vector<std::vector<std::size_t>> groups = groups_left(plan, problem);
        std::vector<std::vector<std::string>> named;
        double faults = 0, found = 0, size = 0;
        std::map<std::size_t, double> within;  // by size of the group
        for (const std::vector<std::size_t>& group : groups) {
            named.emplace_back();
            for (const std::size_t h : group) {
                named.back().push_back("s" + std::to_string(h));
                if (h == 0) continue;  // nothing is wrong
                faults += priors[h];
                if (group.front() == 0) continue;  // looks as if nothing were
                found += priors[h];
                size += priors[h] * static_cast<double>(group.size());
                within[group.size()] += priors[h];
            }
        }
        CHECK(named == one.at("ambiguity_groups").get<std::vector<std::vector<std::string>>>());
        CHECK(found / faults == Approx(number(one.at("fault_detection_fraction"))).epsilon(1e-12));
        CHECK(size / found == Approx(number(one.at("expected_ambiguity_group_size"))).epsilon(1e-12));
        double isolated = 0;
        for (const auto& [most, ratio] : one.at("fault_isolation_ratio_by_L").items()) {
            isolated += within[std::stoul(most)];
            CHECK(isolated / found == Approx(number(ratio)).epsilon(1e-12));
        }
    }
}

}  // namespace halfsplit::plan
