// Which wires of a loom are the chosen lines: as far as metal goes from those that carry the signal.
#pragma once

#include "halfsplit/draft/loom.hpp"

#include "base/collector.hpp"

#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace halfsplit::draft {

// What --network says: "body=CAN-H,CAN-L".
struct LineChoice {
    std::string network;             // empty: not stated
    std::vector<std::string> lines;  // one or two names of signals, or wire numbers
};

// A signal's name that holds "=" or "," is taken whole where the loom has it.
LineChoice read_choice(const Loom& loom, std::string_view choice);

// The contacts of a part by which one line enters and leaves, where it is taken to go through inside.
using Passage = std::array<std::string, 2>;  // cavities

struct FollowedLine {
    std::string name;
    std::vector<std::size_t> wires;           // in order of the loom
    std::map<std::size_t, Passage> passages;  // by part
};

struct Followed {
    std::vector<FollowedLine> lines;  // one, or H and L; empty where an error stopped it
    std::vector<std::string> unused;  // by wire: why it is on none of the lines, or empty
    std::vector<std::string> assumed;
};

// Errors: unknown-signal, lines-joined.
Followed follow(const Loom& loom, const LineChoice& choice, Collector& findings);

// One contact of a part: its cavity, or nothing where the part has but one contact.
std::string contact_of(const Loom& loom, const LoomEnd& end);

}  // namespace halfsplit::draft
