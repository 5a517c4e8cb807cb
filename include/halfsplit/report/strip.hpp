// The bus as a strip of text: what is proven good, what is suspect, where clip and probe go. Told by signs,
// not colours.
//
//     GW==S1(==DS)==X1??M1??X2--BP1--T1
//             ^clip     ^probe
//     = read good   ? suspect   - not ruled out, unlikely
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::report {

struct StripMarks {
    std::vector<std::string> suspects, cleared;  // part ids
    std::string clip, probe;                     // part ids; empty: not shown
};

// Lines of at most `columns`, each with its line end. The legend is the last line.
std::string strip(const harness::Harness& harness, harness::Index network, const StripMarks& marks,
                  std::size_t columns);

}  // namespace halfsplit::report
