// What a drafting makes of a source that is no harness file: the file, and everything there is to say about
// the way to it.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <string>
#include <vector>

namespace halfsplit::draft {

struct Drafted {
    std::string json;                  // the harness file, laid out; empty where an error stopped it
    std::vector<Finding> findings;     // placed in the source (file:line:col, line and caret)
    std::vector<std::string> assumed;  // what the source does not say and got a usual value, a line each
    std::vector<std::string>
        left_out;  // what the source says and the harness file has no room for, a line each
};

}  // namespace halfsplit::draft
