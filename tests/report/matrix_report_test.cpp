// The page and the card of a matrix, beyond what the transcripts show: nothing too wide, and what is folded.
#include "halfsplit/report/matrix_report.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"

#include <sstream>

using namespace halfsplit;
using nlohmann::json;

namespace {

matrix::Matrix read(const json& document) {
    auto result = matrix::read_matrix(document.dump(), "m.json");
    INFO(to_text(result.findings));
    REQUIRE(result.matrix);
    return *result.matrix;
}

// Equal faults, each with a test of its own: the plan asks one after another.
json one_test_each(int size) {
    json document{{"priors", std::vector<int>(static_cast<std::size_t>(size), 1)}, {"tests", json::array()}};
    for (int t = 0; t < size; ++t) {
        json outcomes = json::array();
        for (int h = 0; h < size; ++h) outcomes.push_back(h == t ? 1 : 0);
        document["tests"].push_back({{"minutes", 1}, {"outcomes", outcomes}});
    }
    return document;
}

std::string card(const json& document, std::size_t columns) {
    const matrix::Matrix posed = read(document);
    return report::matrix_card(posed, matrix::survey(posed), columns);
}

}  // namespace

TEST_CASE("the page and the card of a matrix fit the screen, however deep the plan", "[long]") {
    const json document = one_test_each(18);
    const matrix::Matrix posed = read(document);
    const matrix::Survey surveyed = matrix::survey(posed);
    for (const std::size_t columns : {30U, 40U, 80U}) {
        for (const std::string& text : {report::matrix_card(posed, surveyed, columns),
                                        report::matrix_text("m.json", posed, surveyed, columns)}) {
            std::istringstream lines(text);
            for (std::string line; std::getline(lines, line);) {
                INFO(line);
                REQUIRE(line.size() <= columns);
            }
        }
    }
    CHECK(card(document, 30).find("[8 deep] ") != std::string::npos);
    CHECK(card(document, 80).find(" deep] ") == std::string::npos);
}

TEST_CASE("what a hunt comes to with less than 1 % is folded in the card") {
    const json document{{"priors", {500, 490, 5, 4, 1}},
                        {"tests", {{{"name", "all"}, {"minutes", 2}, {"outcomes", {0, 1, 2, 3, 3}}}}}};
    CHECK(card(document, 80) ==
          "PLAN: expected 2 min, worst 2 min\n"
          "test all, 2 min\n"
          "  0 (50 %): it is 0\n"
          "  1 (49 %): it is 1\n"
          "  2 rare outcomes folded (1 %): 3 hypotheses left\n");
}

TEST_CASE("a card ends with the parts in the order in which they are laid bare") {
    const json document{{"priors", {1, 2, 2}},
                        {"tests", {{{"minutes", 1}, {"outcomes", {5, 5, -5}}}}},
                        {"covers", {{{"off", 10}, {"on", 20}}}},
                        {"bare", {{{"minutes", 8}, {"covers", {0}}}, {{"minutes", 2}}, {{"minutes", 9}}}}};
    CHECK(card(document, 80) ==
          "PLAN: expected 13.4 min, worst 41 min\n"
          "test t1, 1 min\n"
          "  5 (60 %): lay bare 1 (2 min), then 0 (38 min)\n"
          "  -5 (40 %): lay bare 2 (9 min)\n");
}
