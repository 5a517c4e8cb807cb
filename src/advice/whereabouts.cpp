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

// From one arrangement to another the way leads by how things stand: what was unplugged is plugged in where
// it is. The battery is switched wherever one stands. After a look things stand as they do now: no plan looks
// in another arrangement and then reads on.
double Whereabouts::minutes(const Spot& from, const Spot& to) const {
    const std::size_t before = from.first == anyhow ? 0 : from.first;
    if (to.first == anyhow || before == to.first) return workshop_.travel(from.second, to.second);
    double sum = power_minutes(arrangements_[before].power, arrangements_[to.first].power, rates_);
    std::size_t place = from.second;
    const auto go = [&](std::size_t next) {
        sum += workshop_.travel(place, next);
        place = next;
    };
    if (arrangements_[before].step != ArrangingStep::None) {
        go(arrangements_[before].site.place);
        go(arrangements_[before].back_place);
        sum += arrangements_[before].back_minutes;
    }
    if (arrangements_[to.first].step != ArrangingStep::None) {
        go(arrangements_[to.first].site.place);
        sum += arrangements_[to.first].site.minutes;
    }
    go(to.second);
    return sum;
}

access::Workshop Whereabouts::workshop() const {
    std::vector<double> travel;
    travel.reserve(spots_.size() * spots_.size());
    for (const Spot& from : spots_)
        for (const Spot& to : spots_) travel.push_back(minutes(from, to));
    return workshop_.with_places(spots_.size(), std::move(travel));
}

}  // namespace halfsplit::advice
