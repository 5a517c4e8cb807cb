// All saved jobs of a shop at once.
#pragma once

#include "cli/commands.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::cli {

struct ShopOptions {
    std::vector<std::string> paths;
    bool json = false, csv = false;
    std::size_t threads = 0;  // 0: as many as the machine runs at once
    std::size_t columns = 80;
};

// What cannot be read as a job is told with the reason; the others count all the same. Exit code: unusable
// where anything could not be read.
int review_shop(const ShopOptions& options, Context& context);

}  // namespace halfsplit::cli
