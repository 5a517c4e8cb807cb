// What a meter would show and how far off that may be, by plain elimination: the spread is found by turning
// the circuit's resistances a little and solving again.
#pragma once

#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/diagnosis/predictor.hpp"

#include <vector>

namespace halfsplit::test {

// With these faults, and these parts apart.
std::vector<diagnosis::Predicted> plain_figures(const harness::Harness& harness,
                                                const electrics::Assembly& assembly,
                                                const std::vector<diagnosis::Fault>& faults,
                                                const electrics::Apart& apart,
                                                const std::vector<diagnosis::Tips>& tips);

}  // namespace halfsplit::test
