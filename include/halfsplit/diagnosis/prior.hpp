// How likely each fault is before anything was read. No published breakdown by element exists: the weights
// are a judgement (harness::Assumptions), printed as "assumed", and a harness file may set its own.
//
//   weight of a part      mated connector, bridge plug, splice, terminator, module, wire per metre; times the
//   marks within a part         open : bad joint : short, then evenly over lines, cavities and ohms
#pragma once

#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/harness/harness.hpp"

#include <vector>

namespace halfsplit::diagnosis {

// Weight of the part as a whole, marks included unless the file gives the part a weight of its own; a module
// counts its own mated connector too.
double part_weight(const harness::Harness& harness, harness::Index index);

// Weight of each fault, in the order given; together they sum to 1. Linear.
std::vector<double> fault_weights(const harness::Harness& harness, const std::vector<Fault>& faults);

}  // namespace halfsplit::diagnosis
