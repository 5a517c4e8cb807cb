// Where a sheet stands while it is read or written: the end at which the next wire begins, and what is
// carried on until it is changed. Reader and writer follow the same rules, so that what one leaves out the
// other puts in.
#pragma once

#include "draft/words.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::draft {

// Where one can stand, and what has to come off there.
struct Stand {
    std::string place;  // empty: not said yet
    std::vector<std::string> covers;
    bool operator==(const Stand&) const = default;
};

struct Carried {
    Stand stand;
    std::array<harness::Colour, 2> colour;  // by line
    Json gauge;                             // members of a run; null: not said
};

// One end of the pair: "X1.b" with its cavities; the lines' names at a splice.
struct End {
    std::string part;
    char half = 0;
    Pair pair;
    bool operator==(const End&) const = default;
};

class Chain {
  public:
    const std::optional<End>& here() const { return here_; }
    Carried& carried() { return carried_; }
    const Carried& carried() const { return carried_; }

    // The pair goes on from here; at a splice one comes back to when the pair has ended elsewhere.
    void pass(const End& end, bool splice) {
        here_ = end;
        remembered_[key(end)] = carried_;
        if (splice) splice_ = end;
    }

    // From an end named before, with what was carried on there; where nothing is remembered, `stand` is where
    // the part is.
    void go_back(const End& end, bool splice, const Stand& stand) {
        here_ = end;
        if (splice) splice_ = end;
        const auto known = remembered_.find(key(end));
        if (known != remembered_.end()) {
            carried_ = known->second;
        } else {
            carried_.stand = stand;
        }
    }

    // The pair ends: back to the last splice, where there is one.
    void finish() {
        here_.reset();
        if (!splice_) return;
        const End back = *splice_;
        go_back(back, true, carried_.stand);
    }

  private:
    static std::string key(const End& end) { return end.half == 0 ? end.part : end.part + '.' + end.half; }

    std::optional<End> here_, splice_;
    Carried carried_;
    std::map<std::string, Carried> remembered_;
};

}  // namespace halfsplit::draft
