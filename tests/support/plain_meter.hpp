// The chance of a reading in ohms, written a second time from its description: what the belief is checked
// with.
#pragma once

#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/harness/harness.hpp"

#include <vector>

namespace halfsplit::test {

struct PlainChance {
    double total = 0;
    double gross = 0;                // the part of it owed to a bad contact or a wrong wire
    std::vector<double> wrong_by{};  // the parts owed to each look-alike
};

PlainChance plain_chance(const diagnosis::Observation& seen, const diagnosis::Predicted& expected,
                         const harness::Assumptions& rates,
                         const std::vector<diagnosis::Predicted>& look_alikes);

}  // namespace halfsplit::test
