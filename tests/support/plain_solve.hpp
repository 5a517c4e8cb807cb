// Resistance between two nodes by the star-mesh rule, one node after the other: slow, and obviously right.
#pragma once

#include "halfsplit/electrics/circuit.hpp"

namespace halfsplit::test {

// Infinity when nothing connects the nodes.
double plain_resistance(const electrics::Circuit& circuit, electrics::Node red, electrics::Node black);

}  // namespace halfsplit::test
