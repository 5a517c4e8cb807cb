// What the electrician wants of the plan.
#pragma once

#include <limits>

namespace halfsplit::advice {

struct Aim {
    // The least worst case; else the least expected minutes.
    bool least_worst = false;
    // Plans whose worst case takes longer, in minutes, are left out where there are others.
    double worst_at_most = std::numeric_limits<double>::infinity();
    // The hunt ends when the fault is isolated as far as readings can; else when its part has been laid bare.
    bool isolate = false;
    bool operator==(const Aim&) const = default;
};

}  // namespace halfsplit::advice
