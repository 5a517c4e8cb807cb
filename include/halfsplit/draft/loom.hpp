// Wires and what they end at, as wire data states them: what a wire list and a harness list have in common,
// before anybody has said which line is to be followed.
#pragma once

#include "halfsplit/base/finding.hpp"
#include "halfsplit/harness/harness.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::draft {

inline constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

enum class PartUse : std::uint8_t {
    Plug,    // a housing: a device's plug, or one half of a connector in the loom
    Splice,  // wires joined for good
    Eyelet,  // a ring terminal or the like: one contact, whatever is crimped into it
    Open,    // a wire's end that is left open
};

struct LoomPart {
    std::string id;    // as the source has it
    std::string name;  // what it is, in words; may be empty
    PartUse use = PartUse::Plug;
    std::size_t mate = nowhere;                 // plug: the half it mates with, cavity by cavity
    char half = 0;                              // plug with a mate: 'a' or 'b'
    std::string connector;                      // plug with a mate: what the two halves together are called
    std::string node;                           // name of the point of the layout where it sits; may be empty
    std::optional<std::array<double, 3>> at_m;  // where that is, metres
    std::size_t offset = 0;                     // in the source
    std::string assumed;                        // what the source does not say of it; may be empty
};

struct LoomEnd {
    std::size_t part = nowhere;
    std::string cavity;  // empty where the source names none
};

// One conductor: a wire, or one core of a cable.
struct LoomWire {
    std::string id;      // wire number
    std::string signal;  // what it carries, as the source names it; may be empty
    std::string group;   // wires with the same are twisted or stand in one cable; may be empty
    bool twisted = false;
    std::array<LoomEnd, 2> ends;
    harness::Colour colour;
    double section_mm2 = 0;  // 0: not stated
    double length_m = 0;     // 0: not stated
    std::size_t offset = 0;  // in the source
    std::string unusable;    // why it is no wire between two ends; empty where it is
    std::string assumed;     // what the source does not say of it; may be empty
};

struct Loom {
    std::string title;
    std::vector<LoomPart> parts;
    std::vector<LoomWire> wires;
    std::vector<std::string> assumed;   // as in Drafted
    std::vector<std::string> left_out;  // as in Drafted, but for wires
};

// What reading a source gave. Findings are placed in it.
struct LoomRead {
    std::optional<Loom> loom;  // empty when any finding is an error
    std::vector<Finding> findings;
};

// How a wire is called in what is told of it: "wire 7 (LAMP_L)".
std::string called(const LoomWire& wire);

}  // namespace halfsplit::draft
