// A dependency matrix (faults against tests) from a file: a planner's problem without any harness behind it.
// docs/reference/matrix.md describes the format.
#pragma once

#include "halfsplit/base/files.hpp"
#include "halfsplit/base/finding.hpp"
#include "halfsplit/plan/problem.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::matrix {

// Hypotheses, tests, places and covers have the numbers of the file, from 0. Where parts are laid bare,
// element and hypothesis have the same number.
struct Matrix {
    plan::Problem problem;
    std::vector<std::string> tests;                  // names, each once
    std::vector<std::vector<std::string>> outcomes;  // by test: the file's integer, by outcome of the problem
};

struct ReadResult {
    std::optional<Matrix> matrix;   // empty when there is any finding
    std::vector<Finding> findings;  // errors, in order of line and column
};

// Larger files are refused unread.
inline constexpr std::uint64_t largest_file = 64ULL << 20U;

// Never throws on bad input. Linear in the file but for the sorting of findings.
ReadResult read_matrix(std::string_view text, const std::string& file_name);

// The same from a path: a missing file, a folder and an oversized file are findings too.
ReadResult read_matrix_file(Files& files, const std::string& path);

}  // namespace halfsplit::matrix
