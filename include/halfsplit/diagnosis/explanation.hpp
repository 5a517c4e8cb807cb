// One way the vehicle could be: which variant it is, and what is wrong with it (nothing, one fault, or two).
#pragma once

#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/electrics/assembly.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::diagnosis {

struct Explanation {
    std::size_t variant = 0;
    std::vector<Fault> faults{};  // empty: nothing wrong on this bus
    bool repair_failed = false;   // a repair of a faulty part did not take
    double prior = 0;             // weight; not normalised
};

// What had been done to the bus when something was read or seen.
struct Situation {
    electrics::Apart apart;
    std::vector<harness::Index> repaired;  // parts repaired so far, in order
    bool operator==(const Situation&) const = default;
};

// The faults of an explanation that are still there: a repair of a part takes its fault away unless it
// failed.
std::vector<Fault> remaining(const Explanation& explanation, const Situation& situation);

}  // namespace halfsplit::diagnosis
