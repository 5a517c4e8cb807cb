// The worked examples of tests/data/planner_vectors.json, each with its source and status beside it.
#pragma once

#include "halfsplit/plan/problem.hpp"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace halfsplit::plan {

// Both fail the running test when there is none.
const nlohmann::json& vector_named(const std::string& id);
std::vector<nlohmann::json> vectors_of_kind(const std::string& kind);
std::vector<nlohmann::json> vectors_beginning(const std::string& id);

// "3/20" or a number.
double number(const nlohmann::json& value);
std::vector<double> numbers(const nlohmann::json& list);
double sum(const std::vector<double>& values);

// Probe k lies after segment k and reads open (1) when the break is in segments up to it. Each takes a
// minute; the hunt ends when the break is isolated.
Problem chain(const std::vector<double>& weights);

}  // namespace halfsplit::plan
