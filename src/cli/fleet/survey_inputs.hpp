// `survey` of many files: one row for each network of each, for comparing designs.
#pragma once

#include "cli/aim_options.hpp"
#include "cli/commands.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::cli {

struct ManySurveys {
    std::vector<std::string> paths;
    std::string format;   // "csv" or "json"
    std::string network;  // of each file, or empty: every one
    advice::Aim aim;
    std::size_t threads = 0;
};

// The exit code: 2 where something could not be read, 1 where a file cannot be used, 0 otherwise.
int survey_many(const ManySurveys& asked, Context& context);

}  // namespace halfsplit::cli
