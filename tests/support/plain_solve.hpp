// Resistance between two nodes by the star-mesh rule, one node after the other: slow, and obviously right.
#pragma once

#include "halfsplit/electrics/circuit.hpp"

#include <vector>

namespace halfsplit::test {

// Infinity when nothing connects the nodes.
double plain_resistance(const electrics::Circuit& circuit, electrics::Node red, electrics::Node black);

// Many at once: all nodes without a tip are removed first, and once only.
std::vector<double> plain_resistances(const electrics::Circuit& circuit,
                                      const std::vector<electrics::Tips>& tips);

}  // namespace halfsplit::test
