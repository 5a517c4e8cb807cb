// The exact cost model, knowing no harness: covers over things, places to walk between, and what it costs to get at
// something given what is already open. A cover comes off once and stays off, so its `on` minutes are owed the moment
// it comes off:
//     open(need, off) = sum over c in closure(need) and not in off of (off_c + on_c)
// `closure` adds every cover that lies over a needed one.
#pragma once

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

// Something to get at: stand at `place`, have `need` off (closed under `under`), then spend `minutes`.
struct Site {
    std::size_t place = 0;
    CoverSet need = 0;
    double minutes = 0;
};

class Workshop {
  public:
    // One place, no covers.
    Workshop();
    // `travel_minutes` is places x places, row-major. Throws std::invalid_argument for more than most_covers covers, a
    // cover cycle, or a table of the wrong size or with a negative or non-finite entry.
    Workshop(std::vector<Cover> covers, std::size_t places, std::vector<double> travel_minutes);

    std::size_t places() const { return places_; }
    std::size_t covers() const { return covers_.size(); }
    double travel(std::size_t from, std::size_t to) const { return travel_[from * places_ + to]; }
    // `covers` and every cover that lies over one of them.
    CoverSet closure(CoverSet covers) const;
    // Minutes to take off, and later refit, what of `need` (already closed) is not yet in `off`.
    double open(CoverSet need, CoverSet off) const;
    // travel + open + the site's own minutes.
    double reach(const Site& site, std::size_t from, CoverSet off) const {
        return travel(from, site.place) + open(site.need, off) + site.minutes;
    }

  private:
    std::vector<Cover> covers_;
    std::size_t places_ = 1;
    std::vector<double> travel_;
};

// Where the technician stands and what is off.
struct Standing {
    std::size_t place = 0;
    CoverSet off = 0;
};

}  // namespace halfsplit::access
