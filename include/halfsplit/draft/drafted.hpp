// What making a harness file from something else gave.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <string>
#include <vector>

namespace halfsplit::draft {

struct Drafted {
    std::string json;                   // the harness file, laid out; empty where an error stopped it
    std::vector<Finding> findings;      // placed in the source (file:line:col, line and caret)
    std::vector<std::string> assumed;   // what the source does not say and got a usual value, a line each
    std::vector<std::string> left_out;  // what the source says and the harness file has no room for or did
                                        // not use, with the reason, a line each (every wire not used is one)
};

}  // namespace halfsplit::draft
