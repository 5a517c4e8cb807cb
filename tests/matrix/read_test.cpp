// Matrix files, right and wrong: what is said of each mistake, and that the right ones pose what they say.
#include "halfsplit/matrix/matrix.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>
#include <string>

namespace halfsplit::matrix {

namespace {

using nlohmann::json;

json small() {
    return {{"priors", {1, 2, 1}},
            {"tests",
             {{{"name", "a"}, {"minutes", 1}, {"outcomes", {0, 1, 1}}},
              {{"name", "b"}, {"minutes", 2}, {"outcomes", {0, 0, 1}}}}}};
}

// "id: message" of each finding.
std::vector<std::string> said(const std::string& text) {
    std::vector<std::string> all;
    const ReadResult result = read_matrix(text, "m.json");
    for (const Finding& finding : result.findings) {
        CHECK(finding.severity == Severity::Error);
        CHECK_FALSE(finding.expected.empty());
        CHECK((!finding.next_step.empty() || finding.id == "json-syntax"));
        CHECK(finding.location.line > 0);
        all.push_back(finding.id + ": " + finding.message);
    }
    CHECK(result.matrix.has_value() == all.empty());
    return all;
}

std::vector<std::string> said(const json& document) {
    return said(document.dump(1));
}

using Said = std::vector<std::string>;

}  // namespace

TEST_CASE("a matrix of priors and tests alone has one place and no covers") {
    CHECK(said(small()).empty());
    const Matrix matrix = *read_matrix(small().dump(), "m.json").matrix;
    CHECK(matrix.tests == Said{"a", "b"});
    CHECK(matrix.problem.bare.empty());
    CHECK(matrix.problem.workshop.places() == 1);
    CHECK(matrix.problem.workshop.covers() == 0);
    REQUIRE(matrix.problem.hypotheses.size() == 3);
    CHECK(matrix.problem.hypotheses[1].probability == 2);
    CHECK(matrix.problem.tests[1].site.minutes == 2);
    CHECK(matrix.problem.tests[1].outcome == plan::Outcomes{0, 0, 1});
}

TEST_CASE("places, ways, covers, start and parts are read as they stand") {
    const Matrix matrix = *read_matrix(test::read_file("data/demo/matrix.json"), "matrix.json").matrix;
    const plan::Problem& problem = matrix.problem;
    CHECK(problem.workshop.places() == 3);
    CHECK(problem.workshop.travel(0, 2) == 4);
    CHECK(problem.workshop.travel(2, 1) == 2);
    REQUIRE(problem.workshop.covers() == 3);
    CHECK(problem.workshop.closure(2) == 3);
    CHECK(problem.workshop.open(3, 0) == 2 + 3 + 6 + 8);
    CHECK(problem.tests[3].site.place == 2);
    CHECK(problem.tests[3].site.need == 4);
    REQUIRE(problem.bare.size() == problem.hypotheses.size());
    CHECK(problem.bare[4].minutes == 8);
    CHECK(problem.hypotheses[4].element == 4);
}

TEST_CASE("outcomes are any whole numbers, and like numbers are one outcome") {
    json document = small();
    document["tests"][0]["outcomes"] = {-7, 18446744073709551615U, -7};
    document["tests"][1]["outcomes"] = {-1, 18446744073709551615U, 9223372036854775807};
    CHECK(said(document).empty());
    const Matrix matrix = *read_matrix(document.dump(), "m.json").matrix;
    CHECK(matrix.problem.tests[0].outcome == plan::Outcomes{0, 1, 0});
    CHECK(matrix.problem.tests[1].outcome == plan::Outcomes{0, 1, 2});
    CHECK(matrix.outcomes[0] == Said{"-7", "18446744073709551615"});
}

TEST_CASE("tests that cost nothing or tell nothing are allowed, and names may be left out") {
    json document = small();
    document["tests"][0]["minutes"] = 0;
    document["tests"][0].erase("name");
    document["tests"][1]["outcomes"] = {5, 5, 5};
    document["priors"][0] = 0;
    CHECK(said(document).empty());
    CHECK(read_matrix(document.dump(), "m.json").matrix->tests == Said{"t1", "b"});
    document["tests"] = json::array();
    CHECK(said(document).empty());
}

TEST_CASE("priors that are negative, nothing, no numbers or out of reach are refused") {
    json document = small();
    document["priors"] = {0, 0, 0};
    CHECK(said(document) == Said{"no-weight: every prior is 0"});
    document["priors"] = {1, -0.5, nullptr};
    CHECK(said(document) ==
          Said{"out-of-range: -0.5 is out of range", "wrong-type: null is not of the right kind"});
    document["priors"] = {1, 1e300, "2"};
    CHECK(said(document) ==
          Said{"out-of-range: 1e+300 is out of range", "wrong-type: \"2\" is not of the right kind"});
    CHECK(said(std::string(R"({"priors": [NaN], "tests": []})")) ==
          Said{"json-syntax: NaN is not a number in JSON"});
    document = small();
    document["priors"] = json::array();
    document["tests"] = json::array();
    CHECK(said(document) == Said{"out-of-range: 0 entries are too few"});
}

TEST_CASE("lists that are too long or too short are told with what they should have, several at once") {
    json document = small();
    document["tests"][0]["outcomes"] = {0, 1};
    document["tests"][1]["outcomes"] = {0, 1, 1, 0};
    document["places"] = {"x", "y"};
    document["travel"] = {{0, 1, 2}, {1, 0}, {2, 1}};
    document["bare"] = json::array();
    const Said told = said(document);
    CHECK(told.size() == 5);
    const auto has = [&](const char* text) { return std::count(told.begin(), told.end(), text) == 1; };
    CHECK(has("wrong-length: 2 outcomes where 3 are needed"));
    CHECK(has("wrong-length: 4 outcomes where 3 are needed"));
    CHECK(has("wrong-length: 3 rows where 2 are needed"));
    CHECK(has("wrong-length: 3 figures where 2 are needed"));
    CHECK(has("wrong-length: 0 parts where 3 are needed"));
}

TEST_CASE("numbers of places and covers that are not there are told with what is") {
    json document = small();
    document["start"] = 1;
    document["tests"][0]["place"] = 4;
    document["tests"][1]["covers"] = {0};
    CHECK(said(document) == Said{"unknown-reference: there is no place 1",
                                 "unknown-reference: there is no place 4",
                                 "unknown-reference: there is no cover 0"});
    document = small();
    document["covers"] = {{{"off", 1}, {"on", 1}}, {{"off", 1}, {"on", 1}, {"under", {0, 2}}}};
    document["tests"][0]["covers"] = {1, -1};
    document["tests"][1]["place"] = 0.5;
    CHECK(said(document).size() == 3);
    document["tests"][1]["place"] = 18446744073709551615U;
    CHECK(said(document).back() == "unknown-reference: there is no place 18446744073709551615");
    CHECK(said(document)[0] == "unknown-reference: there is no cover 2");
}

TEST_CASE("covers that lie under one another, or under themselves, are told once") {
    json document = small();
    const auto cover = [](std::vector<int> under) { return json{{"off", 1}, {"on", 1}, {"under", under}}; };
    document["covers"] = {cover({1}), cover({2}), cover({0}), cover({3}), cover({0})};
    CHECK(said(document) == Said{"cover-cycle: covers lie under one another: 0, under 1, under 2, under 0",
                                 "cover-cycle: covers lie under one another: 3, under 3"});
}

TEST_CASE("64 covers can be planned with, and 65 are refused") {
    json document = small();
    for (int c = 0; c < 64; ++c) document["covers"].push_back({{"off", 1}, {"on", 1}});
    document["tests"][0]["covers"] = {63};
    CHECK(said(document).empty());
    document["covers"].push_back({{"off", 1}, {"on", 1}});
    CHECK(said(document) == Said{"out-of-range: 65 entries are too many"});
    document["tests"][0]["covers"] = {64};
    CHECK(said(document).size() == 2);
}

TEST_CASE("a test has at most 256 different outcomes") {
    json document{{"priors", json::array()}, {"tests", json::array()}};
    document["tests"].push_back({{"minutes", 1}, {"outcomes", json::array()}});
    const auto grow = [&](int size) {
        for (int h = static_cast<int>(document["priors"].size()); h < size; ++h) {
            document["priors"].push_back(1);
            document["tests"][0]["outcomes"].push_back(h * 1000);
        }
        return said(document);
    };
    CHECK(grow(256).empty());
    CHECK(grow(257) == Said{"too-many-outcomes: 257 different outcomes of one test"});
}

TEST_CASE("names that are given twice or misspelt are told with the line of the first and the nearest") {
    json document = small();
    document["tests"][1]["name"] = "a";
    CHECK(said(document) == Said{"duplicate-id: two tests are named \"a\" (see line 10)"});
    document = small();
    document["prior"] = document["priors"];
    document.erase("priors");
    const auto findings = read_matrix(document.dump(1), "m.json").findings;
    REQUIRE_FALSE(findings.empty());
    CHECK(findings[0].id == "unknown-member");
    CHECK(findings[0].nearest == "priors");
}

TEST_CASE("what is no matrix at all is refused with its place") {
    CHECK(said(std::string("priors: 1")).size() == 1);
    CHECK(said(std::string("[1, 2]")) == Said{"wrong-type: a list, [ ... ] is not of the right kind"});
    CHECK(said(test::read_file("data/demo/minibus.json")) == Said{"not-a-matrix: this is a harness file"});
    CHECK(said(std::string("{}")) == Said{"missing-member: the member \"priors\" is missing",
                                          "missing-member: the member \"tests\" is missing"});
    CHECK(said(std::string(R"({"priors": [1], "tests": [{"minutes": 1e999, "outcomes": [1]}]})")).size() ==
          1);
    CHECK(said(std::string(
              R"({"priors": [1], "tests": [{"minutes": 1, "outcomes": [100000000000000000000000]}]})")) ==
          Said{"wrong-type: 9.999999999999999e+22 is not of the right kind"});
}

TEST_CASE("a finding of a matrix shows the line and what to do") {
    const auto result = read_matrix(
        "{\n  \"priors\": [1, 1],\n  \"tests\": [{\"name\": \"a\", \"minutes\": 1, \"outcomes\": [0]}]\n}",
        "m.json");
    CHECK(to_text(result.findings) ==
          "m.json:3:53: error: 1 outcome where 2 are needed [wrong-length]\n"
          "  \"tests\": [{\"name\": \"a\", \"minutes\": 1, \"outcomes\": [0]}]\n"
          "                                                    ^\n"
          "  Expected: one for each prior.\n"
          "  Next: add what is missing.");
}

TEST_CASE("what nobody gets to is told with what to leave out") {
    json document = small();
    document["travel"] = json::parse("[[0, null], [1, 0]]");
    CHECK(said(document) == Said{"unreachable: null for a way that nobody can go"});
    document = small();
    document["covers"] = json::parse(R"([{"off": null, "on": 1}])");
    CHECK(said(document) == Said{"unreachable: null for a cover that does not come off, or on again"});
}

TEST_CASE("a matrix file that is not there is a finding") {
    test::FakeFiles files;
    const ReadResult result = read_matrix_file(files, "gone.json");
    REQUIRE(result.findings.size() == 1);
    CHECK(result.findings[0].id == "file-missing");
    CHECK_FALSE(result.matrix);
}

TEST_CASE("every id that a matrix file can be refused with is documented") {
    const std::string page = test::read_file("docs/reference/findings.md");
    for (const char* id : {"not-a-matrix", "no-weight", "unreachable", "wrong-length", "unknown-reference",
                           "cover-cycle", "duplicate-id", "too-many-outcomes"}) {
        INFO(id);
        CHECK(page.find("| `" + std::string(id) + "` |") != std::string::npos);
    }
}

}  // namespace halfsplit::matrix
