// What joins terminals on this vehicle: wires, mated contacts, the insides of modules and bridge plugs.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <unordered_map>
#include <vector>

namespace halfsplit::harness {

struct Link {
    Index from = none, to = none;  // terminals of the same line
    Index part = none;
    double length_m = 0;
};

// Links of every part that is or may be on the vehicle (`presence` as of vehicle.hpp).
std::vector<Link> make_links(const Harness& harness, const std::vector<Fitted>& presence);

// Which terminals hang together (union-find).
class Islands {
  public:
    explicit Islands(std::size_t terminals);
    void join(Index a, Index b);
    Index of(Index terminal) const;  // a number that is the same all over an island
    bool together(Index a, Index b) const { return of(a) == of(b); }

  private:
    mutable std::vector<Index> parent_;
};

}  // namespace halfsplit::harness
