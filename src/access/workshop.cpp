#include "halfsplit/access/workshop.hpp"

#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>

namespace halfsplit::access {

namespace {

void require(bool holds, const std::string& what) {
    if (!holds) throw std::invalid_argument(what);
}

bool is_time(double minutes) {
    return std::isfinite(minutes) && minutes >= 0;
}

std::string numbered(const char* what, std::size_t index) {
    return std::string(what) + " " + std::to_string(index);
}

// Grows each closure by the closures it names until nothing changes; a cover that comes to lie over itself is
// a cycle.
std::vector<CoverSet> close(const std::vector<Cover>& covers) {
    std::vector<CoverSet> closure(covers.size());
    for (std::size_t c = 0; c < covers.size(); ++c) closure[c] = covers[c].under;
    for (bool changed = true; changed;) {
        changed = false;
        for (CoverSet& set : closure) {
            CoverSet grown = set;
            for (CoverSet rest = set; rest != 0; rest &= rest - 1)
                grown |= closure[static_cast<std::size_t>(std::countr_zero(rest))];
            changed |= grown != set;
            set = grown;
        }
    }
    for (std::size_t c = 0; c < covers.size(); ++c) {
        require((closure[c] >> c & 1U) == 0,
                numbered("cover", c) + " lies over itself, directly or by way of others");
        closure[c] |= CoverSet{1} << c;
    }
    return closure;
}

void require_table(std::size_t places, const std::vector<double>& travel) {
    require(places >= 1, "a workshop needs at least one place");
    require(travel.size() / places == places && travel.size() % places == 0,
            "the travel table has " + std::to_string(travel.size()) + " entries for " +
                std::to_string(places) + " places; it needs one for each pair, in rows");
    for (std::size_t i = 0; i < travel.size(); ++i)
        require(is_time(travel[i]), "travel from place " + std::to_string(i / places) + " to place " +
                                        std::to_string(i % places) + " is negative or not finite");
}

}  // namespace

Workshop::Workshop() : travel_{0.0} {}

Workshop::Workshop(std::vector<Cover> covers, std::size_t places, std::vector<double> travel_minutes)
    : places_(places), travel_(std::move(travel_minutes)) {
    require(covers.size() <= most_covers, std::to_string(covers.size()) + " covers, and at most " +
                                              std::to_string(most_covers) + " can be planned with");
    require_table(places, travel_);
    const CoverSet known = covers.size() == most_covers ? ~CoverSet{0} : (CoverSet{1} << covers.size()) - 1;
    for (std::size_t c = 0; c < covers.size(); ++c) {
        require(is_time(covers[c].off_minutes),
                numbered("cover", c) + ": off_minutes is negative or not finite");
        require(is_time(covers[c].on_minutes),
                numbered("cover", c) + ": on_minutes is negative or not finite");
        require((covers[c].under & ~known) == 0,
                numbered("cover", c) + " lies under a cover that is not there");
        minutes_.push_back(covers[c].off_minutes + covers[c].on_minutes);
    }
    closure_ = close(covers);
}

Workshop Workshop::with_places(std::size_t places, std::vector<double> travel_minutes) const {
    require_table(places, travel_minutes);
    Workshop other = *this;
    other.places_ = places;
    other.travel_ = std::move(travel_minutes);
    return other;
}

CoverSet Workshop::closure(CoverSet covers) const {
    CoverSet closed = 0;
    for (std::size_t c = 0; c < closure_.size(); ++c)
        if ((covers >> c & 1U) != 0) closed |= closure_[c];
    return closed;
}

}  // namespace halfsplit::access
