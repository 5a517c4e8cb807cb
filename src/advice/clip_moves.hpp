// Which readings with the clip moved are worth planning with. Between two points there is one for every pair:
// nearly all of them tell nothing that both points read from where the clip sits now do not tell.
#pragma once

#include "advice/problem.hpp"

#include <array>
#include <cstddef>
#include <map>
#include <vector>

namespace halfsplit::advice {

class ClipMoves {
  public:
    // `outcomes`: by reading of `posed`, then by what is suspected. Keeps references.
    ClipMoves(const Posed& posed, const std::vector<std::vector<int>>& outcomes,
              const harness::Harness& harness);

    // Continuity from a moved clip whose outcome follows from the readings of both its points, from the
    // present clip: that is the same way, and the reading in place of the clip is taken to be no dearer
    // (docs/reference/planning.md says where it is). Linear in what is suspected, with a logarithm.
    bool needless(std::size_t reading) const;

  private:
    bool is_on_clip(const diagnosis::Contact& tip) const;

    const Posed& posed_;
    const std::vector<std::vector<int>>& outcomes_;
    const std::array<harness::Index, 2>& on_clip_;
    std::map<harness::Index, std::size_t> from_clip_;  // by the terminal that red is on
};

}  // namespace halfsplit::advice
