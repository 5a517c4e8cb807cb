// Problems as advice poses and cuts them on the demo harnesses, at the first reading of a hunt.
#pragma once

#include "halfsplit/plan/problem.hpp"

#include <string>
#include <vector>

namespace halfsplit::test {

struct DemoProblem {
    std::string name;  // "minibus, body: LIFT silent"
    plan::Problem problem;
};

// On each network of each demo harness: each module silent by itself, and all of them.
std::vector<DemoProblem> demo_problems();

}  // namespace halfsplit::test
