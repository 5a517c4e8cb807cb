// Random buses as circuits, made without a harness: chain, chain with stubs, tee, star, ring.
#pragma once

#include "halfsplit/electrics/circuit.hpp"

#include "support/random_harness.hpp"

#include <array>
#include <vector>

namespace halfsplit::test {

struct RandomNetwork {
    electrics::Circuit circuit;
    std::vector<electrics::Held> held;                   // empty when not powered
    std::vector<electrics::Change> faults;               // one or two; an open of both lines is one
    std::vector<std::array<electrics::Node, 2>> points;  // H and L
    electrics::Node ground = 0, supply = 1;
};

// From `fewest` to `most` points, no terminator to four, transceivers at some of the points, wires of
// milliohms. Powered: ground, supply and the transceivers' bias are held.
RandomNetwork random_network(Random& dice, bool powered, std::size_t fewest = 2, std::size_t most = 60);

}  // namespace halfsplit::test
