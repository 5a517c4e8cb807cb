// The runs of a harness file: wires by themselves, or two of a pair that go the same way.
#pragma once

#include "draft/shapes.hpp"

#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::draft {

struct DraftedRun {
    std::string id;
    std::array<std::size_t, 2> wire{nowhere, nowhere};  // by line
};

// Two wires are one run where they join the same two parts and are alike in section and, to a tenth, in
// length. In order of the first line, then what is left of the second.
std::vector<DraftedRun> drafted_runs(const Loom& loom, const Followed& followed, NameMaker& names);

}  // namespace halfsplit::draft
