// From the wires of a loom to a harness file of one network: a pair, or a single line.
#pragma once

#include "halfsplit/draft/drafted.hpp"
#include "halfsplit/draft/loom.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::draft {

// Length of a wire where the source states none and its way is not known, metres. Common practice, no source.
inline constexpr double usual_length_m = 1;

// Nearer than this and nobody has to walk, metres. Common practice, no source.
inline constexpr double arms_reach_m = 1;

// Drafts the network that `choice` names: "SIGNAL", "H,L", and either with "ID=" before it, where each name
// is a signal or a wire number. The line is followed as far as metal goes: through splices, shared contacts
// and mated connectors, under whatever name. `text` is the source that the loom was read from; findings,
// those of `harness::read_document` on the result included, are placed in it.
// Findings: unknown-signal, lines-joined, line-too-large.
// Linear in the wires but for sorting.
Drafted draft_network(const Loom& loom, std::string_view choice, std::string_view text,
                      const std::string& file_name);

}  // namespace halfsplit::draft
