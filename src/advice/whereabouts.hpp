// Where one stands and how the bus is arranged, together, as one place of the planner's workshop: going from
// one to another takes the walk, and what has to be unplugged, plugged in, clipped or switched on
// the way. So the planner needs to know nothing of arrangements.
#pragma once

#include "halfsplit/access/workshop.hpp"

#include "advice/arrangement.hpp"

#include <cstddef>
#include <map>
#include <utility>
#include <vector>

namespace halfsplit::advice {

class Whereabouts {
  public:
    // Keeps references. The first arrangement is how things stand.
    Whereabouts(const access::Workshop& workshop, const std::vector<Arrangement>& arrangements,
                const harness::Assumptions& rates)
        : workshop_(workshop), arrangements_(arrangements), rates_(rates) {}

    // A site of the harness as one of the planner's, for a reading in that arrangement: the covers before
    // what has to be arranged are needed as well.
    access::Site reading(const access::Site& site, std::size_t arrangement);
    // For a look, which is the same in every arrangement.
    access::Site look(const access::Site& site);

    // The covers of the workshop given, with all whereabouts asked for so far as places.
    access::Workshop workshop() const;

  private:
    static constexpr std::size_t anyhow = static_cast<std::size_t>(-1);
    using Spot = std::pair<std::size_t, std::size_t>;  // arrangement or anyhow, place

    std::size_t number(std::size_t arrangement, std::size_t place);
    double minutes(const Spot& from, const Spot& to) const;
    double undoing(const Arrangement& arrangement) const;

    const access::Workshop& workshop_;
    const std::vector<Arrangement>& arrangements_;
    const harness::Assumptions& rates_;
    std::map<Spot, std::size_t> number_;
    std::vector<Spot> spots_;
};

}  // namespace halfsplit::advice
