#include "plan/vectors.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"

#include <numeric>

namespace halfsplit::plan {

using nlohmann::json;

namespace {

const json& all_vectors() {
    static const json all =
        json::parse(halfsplit::test::read_file("tests/data/planner_vectors.json")).at("vectors");
    return all;
}

template <typename Wanted>
std::vector<json> vectors_where(Wanted wanted) {
    std::vector<json> result;
    for (const json& one : all_vectors())
        if (wanted(one)) result.push_back(one);
    REQUIRE_FALSE(result.empty());
    return result;
}

}  // namespace

const json& vector_named(const std::string& id) {
    for (const json& one : all_vectors())
        if (one.at("id") == id) return one;
    FAIL("no vector " << id);
    return all_vectors();
}

std::vector<json> vectors_of_kind(const std::string& kind) {
    return vectors_where([&](const json& one) { return one.at("kind") == kind; });
}

std::vector<json> vectors_beginning(const std::string& id) {
    return vectors_where([&](const json& one) { return one.at("id").get<std::string>().rfind(id, 0) == 0; });
}

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

}  // namespace halfsplit::plan
