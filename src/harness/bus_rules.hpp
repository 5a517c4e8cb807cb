// What the standards allow on a bus. Each figure has its source beside it in bus_rules.cpp.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <cstddef>
#include <string>

namespace halfsplit::harness {

// A limit that is not there is 0.
struct Limit {
    double most = 0;
    std::string source;
};

// Longest stub, metres: the file's own figure, or the standard's at the network's bit rate.
Limit longest_stub(const Network& network);
// All stubs together, metres.
Limit all_stubs(const Network& network);
// Longest backbone, metres.
Limit longest_bus(const Network& network);
// Most modules on one network.
Limit most_nodes(const Network& network);
// Whether two terminators are the rule.
bool wants_terminators(const Network& network);

}  // namespace halfsplit::harness
