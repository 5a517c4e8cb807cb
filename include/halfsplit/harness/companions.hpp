// Which other wires share a connector half or a module's plug with a terminal, and which of them could be
// taken for it.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <string>
#include <vector>

namespace halfsplit::harness {

struct Companion {
    Index terminal = none;
    Colour colour;
    std::string circuit;      // "Main bus H", or as the file names another circuit
    bool look_alike = false;  // the same colours as the wire asked about
};

// Empty at parts that are neither connectors nor modules. In order of terminal.
std::vector<Companion> companions(const Harness& harness, Index terminal);

// The colour of the wire at a terminal; not stated where no wire ends.
Colour colour_at(const Harness& harness, Index terminal);

}  // namespace halfsplit::harness
