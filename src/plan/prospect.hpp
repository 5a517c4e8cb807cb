// What lies behind one outcome of a choice: the belief it leaves and what the hunt then still takes.
#pragma once

#include "plan/desk.hpp"

#include <memory>
#include <vector>

namespace halfsplit::plan {

// A kind's probability by kind of the outline, cut to the likeliest that hold at least 1 - ignored of the
// sum; the others are zero.
std::vector<double> cut(std::vector<double> weight, double ignored);

// The belief that a session of planning starts from, cut, and the limits everything behind it is planned
// under.
struct Opening {
    const Outline& outline;
    Desk& desk;
    double ignored = 0;
    Limits limits{};
};

class Prospect {
  public:
    // `by_kind` sums to 1. `unlikely`: how much less likely the reading made what it speaks against (0: ruled
    // out), and `consistent` what it speaks for, by kind.
    Prospect(const Opening& opening, const std::vector<double>& by_kind, const std::vector<bool>& consistent,
             double unlikely, const access::Standing& standing);

    double lower_bound() { return desk_->lower_bound(set_, standing_); }
    void settle(double budget) { desk_->settle(set_, standing_, budget); }
    Plan value() { return desk_->value(set_, standing_); }

  private:
    bool take_from_opening(const Opening& opening, const std::vector<double>& by_kind,
                           const std::vector<bool>& consistent, double unlikely);

    std::unique_ptr<Ground> own_ground_;
    std::unique_ptr<Desk> own_;
    Desk* desk_ = nullptr;
    SetId set_ = 0;
    access::Standing standing_;
};

}  // namespace halfsplit::plan
