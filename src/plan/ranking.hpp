// The choices at one state of a desk, best first, valued no further than asked for.
#pragma once

#include "plan/desk.hpp"

#include <optional>
#include <vector>

namespace halfsplit::plan {

struct RankedChoice {
    Choice choice;        // expected and worst minutes of the best plan known that begins with it
    bool valued = false;  // no plan that begins with it is better
};

class Ranking {
  public:
    Ranking(Desk& desk, SetId set, const access::Standing& standing);

    bool nothing_to_do() const { return beginnings_.empty(); }
    // The best choice not handed out yet (of choices that tie, tests first, by their index); none when there
    // is none below `budget` expected minutes, or when the search ran out.
    std::optional<RankedChoice> next(double budget);
    // What seems best of those not handed out, by rule of thumb; for when the search ran out.
    std::vector<RankedChoice> estimates();
    // At most the least expected minutes.
    double lower_bound() { return desk_.lower_bound(set_, standing_); }

  private:
    Beginning* cheapest_open(double budget);
    RankedChoice show(Beginning& beginning);
    std::tuple<bool, std::size_t> order(const Beginning& beginning) const;

    Desk& desk_;
    SetId set_;
    access::Standing standing_;
    double weight_;
    std::vector<Beginning> beginnings_;
};

// Ranks everything there is: the best choice and `alternatives` more, all valued where the search ran its
// course.
Solution rank_all(Desk& desk, SetId set, const access::Standing& standing, std::size_t alternatives);

}  // namespace halfsplit::plan
