// What this vehicle may be. Where the file does not know whether an option or a part is fitted, both stay in
// play: each combination is a variant of its own, with a circuit of its own, and readings tell them apart.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <string>
#include <vector>

namespace halfsplit::harness {

struct Variant {
    std::vector<char> present;  // by part
    std::string in_words;       // "with wheelchair lift", empty when the file leaves nothing open
};

// Unknowns beyond this many are taken as fitted (each doubles the variants).
inline constexpr std::size_t most_unknowns = 3;

// At least one; all equally likely.
std::vector<Variant> variants(const Harness& harness);

}  // namespace halfsplit::harness
