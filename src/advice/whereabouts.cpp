#include "advice/whereabouts.hpp"

namespace halfsplit::advice {

access::Site Whereabouts::reading(const access::Site& site, std::size_t arrangement) {
    return {number(arrangement, site.place), site.need | arrangements_[arrangement].site.need, site.minutes};
}

access::Site Whereabouts::look(const access::Site& site) {
    return {number(anyhow, site.place), site.need, site.minutes};
}

std::size_t Whereabouts::number(std::size_t arrangement, std::size_t place) {
    const auto [found, added] = number_.try_emplace({arrangement, place}, spots_.size());
    if (added) spots_.emplace_back(arrangement, place);
    return found->second;
}

// What an arrangement takes to undo is owed at once, as a cover's refitting is: so leaving one takes the walk
// alone, and no walk over anywhere else is shorter than the way itself (but where the harness says so), which
// the planner's bounds rest on. The walk back to what was unplugged is left out. The battery is switched
// wherever one stands. After a look things stand as they do now.
double Whereabouts::minutes(const Spot& from, const Spot& to) const {
    const std::size_t before = from.first == anyhow ? 0 : from.first;
    if (to.first == anyhow || before == to.first) return workshop_.travel(from.second, to.second);
    const Arrangement& next = arrangements_[to.first];
    const double switching = power_minutes(arrangements_[before].power, next.power, rates_);
    if (next.step == ArrangingStep::None) return switching + workshop_.travel(from.second, to.second);
    return switching + workshop_.travel(from.second, next.site.place) + next.site.minutes +
           workshop_.travel(next.site.place, to.second) + undoing(next);
}

double Whereabouts::undoing(const Arrangement& arrangement) const {
    return arrangement.back_minutes + workshop_.travel(arrangement.site.place, arrangement.back_place);
}

access::Workshop Whereabouts::workshop() const {
    std::vector<double> travel;
    travel.reserve(spots_.size() * spots_.size());
    for (const Spot& from : spots_)
        for (const Spot& to : spots_) travel.push_back(minutes(from, to));
    return workshop_.with_places(spots_.size(), std::move(travel));
}

}  // namespace halfsplit::advice
