// `survey --matrix` held against published problems: each worked example of tests/data/planner_vectors.json
// (its source stands beside it there) put through the command as a file.
#include "halfsplit/base/schema.hpp"
#include "halfsplit/cli/run.hpp"

#include <nlohmann/json.hpp>

#include "plan/vectors.hpp"
#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"

#include <sstream>

using namespace halfsplit;
using nlohmann::json;

namespace {

struct Ran {
    int exit = 0;
    std::string out, err;
};

Ran run_matrix(const std::string& text, std::vector<std::string> more) {
    test::FakeFiles files;
    test::FakeClock clock;
    files.put("m.json", text);
    std::istringstream in;
    std::ostringstream out, err;
    cli::PlainTerminal terminal(in, out, 80);
    cli::Context context{out, err, files, clock, terminal};
    more.insert(more.begin(), {"survey", "--matrix", "m.json"});
    const int exit = cli::run(more, context);
    return {exit, out.str(), err.str()};
}

json surveyed(const json& matrix, std::vector<std::string> more = {}) {
    more.insert(more.begin(), "--json");
    const Ran ran = run_matrix(matrix.dump(), more);
    INFO(ran.err);
    REQUIRE(ran.exit == cli::Exit::fine);
    json output = json::parse(ran.out);
    for (const SchemaViolation& violation : validate(output, "survey-matrix"))
        FAIL(violation.pointer << ": " << violation.message);
    CHECK(output["lower_bound"].get<double>() <= output["expected_minutes"].get<double>());
    CHECK(output["expected_minutes"].get<double>() <= output["worst_minutes"].get<double>() + 1e-9);
    return output;
}

// Probe k lies after segment k and reads open when the break is in segments up to it.
json chain(const std::vector<double>& weights) {
    json matrix{{"priors", weights}, {"tests", json::array()}};
    for (std::size_t k = 0; k + 1 < weights.size(); ++k) {
        json outcomes = json::array();
        for (std::size_t s = 0; s < weights.size(); ++s) outcomes.push_back(s <= k ? 1 : 0);
        matrix["tests"].push_back(
            {{"name", "probe " + std::to_string(k + 1)}, {"minutes", 1}, {"outcomes", outcomes}});
    }
    return matrix;
}

// A column of the table for each test.
json table(const json& vector) {
    json matrix{{"priors", vector.at("priors")}, {"tests", json::array()}};
    for (std::size_t t = 0; t < vector.at("D")[0].size(); ++t) {
        json outcomes = json::array();
        for (const json& row : vector.at("D")) outcomes.push_back(row[t]);
        matrix["tests"].push_back(
            {{"name", "t" + std::to_string(t + 1)}, {"minutes", 1}, {"outcomes", outcomes}});
    }
    return matrix;
}

// The vectors' panels have no closing cost; travel is between positions on a line, from 0.
json probed_chain(const json& vector) {
    json matrix = chain(plan::numbers(vector.at("priors")));
    std::vector<std::string> panels;
    if (vector.contains("panel_open_costs"))
        for (const auto& [name, minutes] : vector.at("panel_open_costs").items()) {
            panels.push_back(name);
            matrix["covers"].push_back({{"off", minutes}, {"on", 0}});
        }
    const std::size_t probes = matrix["tests"].size();
    if (vector.at("travel") != "none")
        for (std::size_t a = 0; a <= probes; ++a)
            for (std::size_t b = 0; b <= probes; ++b)
                matrix["travel"][a][b] = std::abs(static_cast<double>(a) - static_cast<double>(b));
    for (std::size_t k = 0; k < probes; ++k) {
        json& probe = matrix["tests"][k];
        probe["minutes"] = vector.at("probe_costs")[k];
        if (matrix.contains("travel")) probe["place"] = k + 1;
        if (!vector.contains("panel_of_probe") || vector.at("panel_of_probe")[k].is_null()) continue;
        const auto at =
            std::find(panels.begin(), panels.end(), vector.at("panel_of_probe")[k].get<std::string>());
        probe["covers"] = {at - panels.begin()};
    }
    return matrix;
}

}  // namespace

TEST_CASE("the test-sequencing table costs 2.18 tests as a matrix file") {
    const json vector = plan::vectors_of_kind("test_sequencing").front();
    const json output = surveyed(table(vector));
    CHECK(output["expected_minutes"] == 2.18);
    CHECK(output["lower_bound"] == 2.18);
    CHECK(output["proven"] == true);
    CHECK(output["first"] == "t2");
    CHECK(output["nodes"].get<int>() > 0);
    CHECK(output["ambiguity_groups"].size() == 6);
}

TEST_CASE("optimal alphabetic trees cost what their sources say as matrix files") {
    for (const json& vector : plan::vectors_of_kind("alphabetic_tree")) {
        INFO(vector.at("id"));
        const std::vector<double> weights = plan::numbers(vector.at("weights"));
        const json output = surveyed(chain(weights));
        CHECK(output["proven"] == true);
        CHECK(output["expected_minutes"].get<double>() * plan::sum(weights) ==
              Approx(plan::number(vector.at("optimal_cost"))).epsilon(1e-9));
    }
}

// Comparing with a key has three outcomes. The source counts one more for each gap than comparisons are made.
TEST_CASE("the optimal search tree costs what its source says as a matrix file") {
    const json vector = plan::vectors_of_kind("optimal_bst").front();
    const std::vector<double> keys = plan::numbers(vector.at("p")), gaps = plan::numbers(vector.at("q"));
    json matrix{{"priors", json::array()}, {"tests", json::array()}};
    for (std::size_t i = 0; i < keys.size() + gaps.size(); ++i)
        matrix["priors"].push_back(i % 2 == 0 ? gaps[i / 2] : keys[i / 2]);
    for (std::size_t key = 0; key < keys.size(); ++key) {
        json outcomes = json::array();
        for (std::size_t i = 0; i < keys.size() + gaps.size(); ++i)
            outcomes.push_back(i < 2 * key + 1 ? -1 : i == 2 * key + 1 ? 0 : 1);
        matrix["tests"].push_back(
            {{"name", "k" + std::to_string(key + 1)}, {"minutes", 1}, {"outcomes", outcomes}});
    }
    const json output = surveyed(matrix);
    CHECK(output["proven"] == true);
    CHECK(output["expected_minutes"].get<double>() + plan::sum(gaps) ==
          Approx(plan::number(vector.at("expected"))).epsilon(1e-9));
    CHECK(output["first"] == "k" + std::to_string(vector.at("root").get<int>()));
}

TEST_CASE("ambiguity groups and the mean number of tests are those of the testability examples") {
    for (const json& vector : plan::vectors_of_kind("testability_metrics")) {
        INFO(vector.at("id"));
        const json output = surveyed(table(vector));
        json named = json::array();
        for (const json& group : output["ambiguity_groups"]) {
            named.push_back(json::array());
            for (const json& h : group) named.back().push_back("s" + h.dump());
        }
        CHECK(named == vector.at("ambiguity_groups"));
        CHECK(output["proven"] == true);
        CHECK(output["expected_minutes"].get<double>() ==
              Approx(plan::number(vector.at("optimal_mean_tests"))).epsilon(1e-9));
    }
}

TEST_CASE("chains with unequal probes, shared panels and walks cost what enumeration gives as matrix files",
          "[long]") {
    for (const json& vector : plan::vectors_of_kind("chain_single_open_probe")) {
        INFO(vector.at("id"));
        const json output = surveyed(probed_chain(vector));
        CHECK(output["proven"] == true);
        CHECK(output["expected_minutes"].get<double>() ==
              Approx(plan::number(vector.at("optimal_expected_cost"))).epsilon(1e-9));
        CHECK(output["first"] == "probe " + std::to_string(vector.at("optimal_first_probe").get<int>()));
    }
}

TEST_CASE("without tests parts are laid bare by probability per minute, and the output says which first") {
    const json vector = plan::vectors_of_kind("inspect_until_found").front();
    json matrix{{"priors", vector.at("p")}, {"tests", json::array()}};
    for (const json& minutes : vector.at("c")) matrix["bare"].push_back({{"minutes", minutes}});
    const json output = surveyed(matrix);
    CHECK(output["expected_minutes"] == vector.at("expected_cost"));
    CHECK(output["first"] == json{{"bare", vector.at("optimal_order")[0].get<int>() - 1}});
    CHECK(output["ambiguity_groups"] == json{{0, 1, 2}});
    matrix.erase("bare");
    CHECK(surveyed(matrix)["first"] == nullptr);
    CHECK(surveyed(matrix)["expected_minutes"] == 0);
}

TEST_CASE("how outcomes are numbered and how priors are scaled changes nothing") {
    json matrix = table(plan::vectors_of_kind("test_sequencing").front());
    const json output = surveyed(matrix);
    for (json& prior : matrix["priors"]) prior = prior.get<double>() * 4096;
    for (json& test : matrix["tests"])
        for (json& outcome : test["outcomes"]) outcome = outcome == 0 ? -1000000000000 : 77;
    CHECK(surveyed(matrix) == output);
}

TEST_CASE("hypotheses without weight, tests that tell nothing and tests that cost nothing do no harm") {
    json matrix = table(plan::vectors_of_kind("test_sequencing").front());
    matrix["priors"].push_back(0);
    for (json& test : matrix["tests"]) test["outcomes"].push_back(9);
    matrix["tests"].push_back({{"name", "mute"}, {"minutes", 0}, {"outcomes", {4, 4, 4, 4, 4, 4, 4}}});
    CHECK(surveyed(matrix)["expected_minutes"] == 2.18);
    matrix["tests"].push_back({{"name", "free"}, {"minutes", 0}, {"outcomes", {0, 1, 2, 3, 4, 5, 6}}});
    const json output = surveyed(matrix);
    CHECK(output["expected_minutes"] == 0);
    CHECK(output["first"] == "free");
    matrix["priors"] = {1e-300, 1e-300, 1e12, 1, 1e-6, 5, 0};
    matrix["tests"].erase(6);
    CHECK(surveyed(matrix)["proven"] == true);
}

TEST_CASE("bad use of --matrix is refused with words") {
    const std::string good = R"({"priors": [1], "tests": []})";
    const Ran both = run_matrix(good, {"van.json"});
    CHECK(both.exit == cli::Exit::unusable);
    CHECK(both.err.find("excludes") != std::string::npos);
    CHECK(run_matrix(good, {"--network", "x"}).exit == cli::Exit::unusable);
    CHECK(run_matrix(good, {"--card", "--json"}).exit == cli::Exit::unusable);
    CHECK(run_matrix(good, {"--card"}).exit == cli::Exit::fine);
    CHECK(run_matrix(good, {"--card", "--rules"}).exit == cli::Exit::unusable);
    const Ran bad = run_matrix("{\"priors\": [1, -1], \"tests\": [{\"outcomes\": [0]}]}", {"--json"});
    CHECK(bad.exit == cli::Exit::unusable);
    CHECK(bad.out.empty());
    for (const char* words : {"m.json:1:16: error: -1 is out of range", "the member \"minutes\" is missing",
                              "1 outcome where 2 are needed"}) {
        INFO(bad.err);
        CHECK(bad.err.find(words) != std::string::npos);
    }
}

TEST_CASE("a matrix is planned for another aim as well, and not told as if it were the first") {
    // The parts one after another: 1 + 0.2 x 20 + 0.1 x 20, at worst 41. With the test after the first: 8, at
    // worst 36. The test alone: 15.
    const json matrix{{"priors", {8, 1, 1}},
                      {"tests", {{{"name", "t"}, {"minutes", 15}, {"outcomes", {0, 0, 1}}}}},
                      {"bare", {{{"minutes", 1}}, {{"minutes", 20}}, {{"minutes", 20}}}}};
    const auto check = [&](const std::vector<std::string>& aim, double expected, double worst) {
        const json output = surveyed(matrix, aim);
        CHECK(output["expected_minutes"].get<double>() == Approx(expected));
        CHECK(output["worst_minutes"].get<double>() == Approx(worst));
        CHECK(output["proven"] == true);
    };
    check({}, 7, 41);
    check({"--least", "worst"}, 8, 36);
    check({"--at-most", "40"}, 8, 36);
    check({"--at-most", "41"}, 7, 41);
    check({"--at-most", "5"}, 8, 36);
    check({"--until", "isolated"}, 15, 15);
    const auto quote = [&](std::vector<std::string> aim) {
        aim.insert(aim.end(), {"--columns", "200"});
        return run_matrix(matrix.dump(), aim).out;
    };
    CHECK_THAT(quote({"--at-most", "5"}), Catch::Contains("no plan keeps to 5 min; worst case proven least"));
    CHECK_THAT(quote({"--at-most", "40"}), Catch::Contains("proven least of those within 40 min"));
    CHECK_THAT(quote({"--least", "worst"}), Catch::Contains("(worst case proven least)"));
}
