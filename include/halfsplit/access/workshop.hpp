// The exact cost model, knowing no harness: covers over things, places to walk between, and what it costs to
// get at something given what is already open. A cover comes off once and stays off, so its `on` minutes are
// owed the moment it comes off:
//     open(need, off) = sum over c in closure(need) and not in off of (off_c + on_c)
// `closure` adds every cover that lies over a needed one. All times are minutes.
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace halfsplit::access {

// A set of covers, by bit. At most 64 covers can matter in one problem.
using CoverSet = std::uint64_t;
inline constexpr std::size_t most_covers = 64;

struct Cover {
    double off_minutes = 0, on_minutes = 0;
    CoverSet under = 0;  // covers directly over this one
};

// Something to get at: stand at `place`, have `need` off (and what lies over it), then spend `minutes`.
struct Site {
    std::size_t place = 0;
    CoverSet need = 0;
    double minutes = 0;
};

class Workshop {
  public:
    // One place, no covers.
    Workshop();
    // `travel_minutes` is places x places, row-major. Throws std::invalid_argument for more than most_covers
    // covers, a cover that is not there, a cover cycle, no place at all, a table of the wrong size, or a
    // figure that is negative or not finite. The table need be neither symmetric nor shortest: travel() is
    // what it says.
    Workshop(std::vector<Cover> covers, std::size_t places, std::vector<double> travel_minutes);

    // The same covers with other places. Throws as the constructor.
    Workshop with_places(std::size_t places, std::vector<double> travel_minutes) const;

    std::size_t places() const { return places_; }
    std::size_t covers() const { return minutes_.size(); }
    double travel(std::size_t from, std::size_t to) const { return travel_[from * places_ + to]; }
    // `covers` and every cover that lies over one of them. Bits beyond covers() are dropped.
    CoverSet closure(CoverSet covers) const;
    // Minutes to take off, and later refit, what of `need` (already closed) is not yet in `off`.
    double open(CoverSet need, CoverSet off) const {
        double minutes = 0;
        for (CoverSet rest = need & ~off; rest != 0; rest &= rest - 1)
            minutes += minutes_[static_cast<std::size_t>(std::countr_zero(rest))];
        return minutes;
    }
    // travel + open + the site's own minutes; the site's need already closed.
    double reach(const Site& site, std::size_t from, CoverSet off) const {
        return travel(from, site.place) + open(site.need, off) + site.minutes;
    }

  private:
    std::vector<double> minutes_;    // off and on together, by cover
    std::vector<CoverSet> closure_;  // each cover with all that lies over it
    std::size_t places_ = 1;
    std::vector<double> travel_;
};

// Where the technician stands and what is off.
struct Standing {
    std::size_t place = 0;
    CoverSet off = 0;
};

}  // namespace halfsplit::access
