// What a plan is to be best at.
#pragma once

#include <limits>

namespace halfsplit::plan {

struct Objective {
    // The plan whose worst case is least; of those, the one with the least expected minutes. Else the least
    // expected minutes.
    bool least_worst = false;
    // Only plans whose worst case takes no more than this, in minutes. Where there is none, the least worst
    // case.
    double worst_at_most = std::numeric_limits<double>::infinity();

    bool is_expected_alone() const {
        return !least_worst && worst_at_most == std::numeric_limits<double>::infinity();
    }
};

}  // namespace halfsplit::plan
