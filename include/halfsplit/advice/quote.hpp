// What a plan takes.
#pragma once

#include <string>

namespace halfsplit::advice {

struct Quote {
    // From here to the find (or to isolation, where that is the aim), refitting included. Nine hunts in ten
    // are over within `ninety_minutes`, readings taken as truthful.
    double expected_minutes = 0, ninety_minutes = 0, worst_minutes = 0;
    double lower_bound_minutes = 0;
    double worst_lower_bound_minutes = 0;  // where the worst case is an aim
    bool proven = false;                   // for the aim, within the class of plans:
    std::string plans;                     // "looks-any-time", or the narrower "looks-last" (plan/exact.hpp)
};

// Repaired, and still not cured.
struct NotCured {
    double repair_fails = 0;     // chance that the repair did not take: the same part again
    double second_fault = 0;     // chance of a further fault
    double further_minutes = 0;  // mean to find that one, beyond the quote; 0 where there is none to find
};

}  // namespace halfsplit::advice
