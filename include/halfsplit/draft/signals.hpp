// What could be followed in a loom: its signals, and which two of them are likely the lines of one bus.
#pragma once

#include "halfsplit/draft/loom.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::draft {

struct Signal {
    std::string name;
    std::size_t wires = 0;
    std::vector<std::string> parts;  // ids of what it joins, in order of wires
};

struct Signals {
    std::vector<Signal> all;                        // most wires first, then by name
    std::vector<std::array<std::string, 2>> pairs;  // H and L, likely
    std::size_t nameless = 0;                       // wires without a signal: chosen by their number
};

// Of usable wires. Two names are a likely pair where they differ in H and L, HIGH and LOW, PLUS and MINUS or
// + and -, or are the two signals of one twisted group.
Signals signals(const Loom& loom);

// The list for a person, no line wider than `columns`; ends with what to type next.
std::string to_text(const Signals& signals, std::size_t columns);

}  // namespace halfsplit::draft
