// A harness in terms of the workshop: what it takes to probe a terminal, to look at a part, to set the clip.
#pragma once

#include "halfsplit/access/workshop.hpp"
#include "halfsplit/harness/harness.hpp"

#include <string>
#include <vector>

namespace halfsplit::access {

class Costs {
  public:
    // Only the covers that stand before something of this network count, so that 64 are plenty. Throws
    // std::invalid_argument when there are more. Keeps a reference to the harness.
    Costs(const harness::Harness& harness, harness::Index network);

    const Workshop& workshop() const { return workshop_; }

    Site probe(harness::Index terminal) const;  // minutes: the reading
    Site look(harness::Index part) const;       // minutes: laying bare and looking
    Site clip(harness::Index point) const;      // minutes: setting the clip

    // Covers by harness index as a set, and back in the order they come off (what lies over another first).
    CoverSet set_of(const std::vector<harness::Index>& covers) const;
    std::vector<harness::Index> in_order(CoverSet covers) const;
    // What still has to come off to get at a site, in order.
    std::vector<harness::Index> to_take_off(const Site& site, CoverSet off) const {
        return in_order(site.need & ~off);
    }

  private:
    Site site(const harness::Access& access, double minutes) const;

    const harness::Harness& harness_;
    std::vector<harness::Index> cover_of_bit_;
    std::vector<std::size_t> bit_of_cover_;
    Workshop workshop_;
};

}  // namespace halfsplit::access
