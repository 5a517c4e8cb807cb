// Worked examples, each with its source beside it in tests/data/planner_vectors.json.
#include "halfsplit/plan/bounds.hpp"
#include "halfsplit/plan/exact.hpp"
#include "halfsplit/plan/one_step.hpp"
#include "halfsplit/plan/rules.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"

#include <cmath>
#include <fstream>
#include <numeric>
#include <string>

namespace halfsplit::plan {

namespace {

using nlohmann::json;

const json& vectors() {
    static const json all = [] {
        std::ifstream file(std::string(HALFSPLIT_SOURCE_DIR) + "/tests/data/planner_vectors.json");
        return json::parse(file).at("vectors");
    }();
    return all;
}

const json& vector(const std::string& id) {
    for (const json& one : vectors())
        if (one.at("id") == id) return one;
    FAIL("no vector " << id);
    return vectors();
}

std::vector<json> of_kind(const std::string& kind) {
    std::vector<json> result;
    for (const json& one : vectors())
        if (one.at("kind") == kind) result.push_back(one);
    REQUIRE_FALSE(result.empty());
    return result;
}

// "3/20" or a number.
double number(const json& value) {
    if (value.is_number()) return value.get<double>();
    const auto text = value.get<std::string>();
    const std::size_t slash = text.find('/');
    return slash == std::string::npos ? std::stod(text)
                                      : std::stod(text.substr(0, slash)) / std::stod(text.substr(slash + 1));
}

std::vector<double> numbers(const json& list) {
    std::vector<double> result;
    for (const json& value : list) result.push_back(number(value));
    return result;
}

double sum(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

// Probe k lies after segment k and reads open (1) when the break is in segments up to it.
Problem chain(const std::vector<double>& weights) {
    Problem problem;
    for (std::size_t s = 0; s < weights.size(); ++s) problem.hypotheses.push_back({weights[s], s});
    for (std::size_t k = 0; k + 1 < weights.size(); ++k) {
        problem.tests.push_back({{0, 0, 1}, {}});
        for (std::size_t s = 0; s < weights.size(); ++s)
            problem.tests.back().outcome.push_back(s <= k ? 1 : 0);
    }
    return problem;
}

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
            if (names[c] == vector.at("panel_of_probe")[k]) site.need = access::CoverSet{1} << c;
    }
    return problem;
}

}  // namespace

TEST_CASE("One lead at the end of a chain makes the optimal alphabetic tree") {
    for (const json& one : of_kind("alphabetic_tree")) {
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

// Comparing with a key has three outcomes. The source counts one more for each gap than comparisons are made.
TEST_CASE("Comparing with keys makes the optimal search tree") {
    const json& one = vector("clrs_obst");
    const std::vector<double> keys = numbers(one.at("p")), gaps = numbers(one.at("q"));
    Problem problem;
    for (std::size_t i = 0; i < keys.size() + gaps.size(); ++i)
        problem.hypotheses.push_back({i % 2 == 0 ? gaps[i / 2] : keys[i / 2], i});
    for (std::size_t key = 0; key < keys.size(); ++key) {
        problem.tests.push_back({{0, 0, 1}, {}});
        for (std::size_t i = 0; i < problem.hypotheses.size(); ++i)
            problem.tests.back().outcome.push_back(i < 2 * key + 1 ? 0 : i == 2 * key + 1 ? 1 : 2);
    }
    const Solution solution = solve(problem);
    CHECK(solution.proven);
    CHECK(solution.best.expected_minutes + sum(gaps) == Approx(number(one.at("expected"))).epsilon(1e-12));
    CHECK(solution.best.index + 1 == one.at("root").get<std::size_t>());
}

TEST_CASE("The test-sequencing table costs what its authors found, whatever the tree") {
    const json& one = vector("pattipati_alexandridis_6x5");
    Problem problem;
    const std::vector<double> priors = numbers(one.at("priors"));
    for (std::size_t h = 0; h < priors.size(); ++h) problem.hypotheses.push_back({priors[h], h});
    for (std::size_t t = 0; t < 5; ++t) {
        problem.tests.push_back({{0, 0, number(one.at("costs")[t])}, {}});
        for (std::size_t h = 0; h < priors.size(); ++h)
            problem.tests[t].outcome.push_back(one.at("D")[h][t].get<int>());
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

TEST_CASE("Chains with unequal, shared and distant probes cost what enumeration gives") {
    for (const json& one : of_kind("chain_single_open_probe")) {
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
    for (const json& one : of_kind("half_split")) {
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
    for (const json& one : of_kind("two_point_interval_tests")) {
        INFO(one.at("id"));
        const std::vector<double> weights = numbers(one.at("weights"));
        const double total = sum(weights);
        Problem problem = chain(weights);
        const double prefix = solve(problem).best.expected_minutes * total;
        CHECK(prefix == Approx(number(one.at("prefix_only_optimum"))).epsilon(1e-12));
        problem.tests.clear();
        for (std::size_t from = 0; from < weights.size(); ++from)
            for (std::size_t to = from + 1; to <= weights.size(); ++to) {
                problem.tests.push_back({{0, 0, 1}, std::vector<int>(weights.size(), 0)});
                for (std::size_t s = from; s < to; ++s) problem.tests.back().outcome[s] = 1;
            }
        const double interval = solve(problem).best.expected_minutes * total;
        CHECK(interval == Approx(number(one.at("any_two_point_interval_optimum"))).epsilon(1e-12));
        CHECK(interval <= prefix + 1e-9);
        CHECK(interval >= number(one.at("huffman_lower_bound")) - 1e-9);
    }
}

TEST_CASE("Without tests elements are laid bare by probability per minute") {
    const json& one = vector("p_over_c_3");
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

// The vectors flip a reading with chance 0.1, which weighs 0.9 against 0.1. A slip to open with chance 1/9
// weighs an "open" just the same, 1 against 1/9.
TEST_CASE("A doubtful reading moves the probabilities as Bayes has it") {
    const auto check_posterior = [](const std::vector<double>& priors, std::size_t probe,
                                    const std::vector<double>& posterior) {
        Problem problem = chain(priors);
        problem.tests = {problem.tests[probe - 1]};
        problem.tests[0].slip = 1.0 / 9;
        problem.tests[0].slip_outcome = 1;
        const Recommendation recommendation = one_step(problem);
        REQUIRE(recommendation.options.size() == 1);
        const OutcomeView& open = recommendation.options[0].outcomes.back();
        REQUIRE(open.outcome == 1);
        REQUIRE(open.posterior.size() == posterior.size());
        for (std::size_t s = 0; s < posterior.size(); ++s)
            CHECK(open.posterior[s] == Approx(posterior[s]).epsilon(1e-12));
    };
    check_posterior(numbers(vector("bayes_update_8").at("priors")), 4,
                    numbers(vector("bayes_update_8").at("posterior")));
    check_posterior(std::vector<double>(16, 1.0 / 16), 8,
                    numbers(vector("noisy_one_step_16").at("posterior_after_reading_left")));
}

}  // namespace halfsplit::plan
