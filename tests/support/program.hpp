// The program in this process: on any files, by a clock that stands, with nothing typed.
#pragma once

#include "halfsplit/base/files.hpp"

#include <string>
#include <vector>

namespace halfsplit::test {

struct Said {
    int code = 0;
    std::string out, err;
};

// At 80 columns.
Said run_program(const std::vector<std::string>& arguments, Files& files);
// On no files at all.
Said run_program(const std::vector<std::string>& arguments);

}  // namespace halfsplit::test
