// Greedy with one rollout: at each state the choice that takes the least minutes when information per minute
// is followed after it. What that rule itself would do is one of the choices, so it is never dearer
// (improving a policy by one step: Howard 1960, from memory).
#pragma once

#include "plan/desk.hpp"

namespace halfsplit::plan {

class Rollout {
  public:
    // The desk must not have been searched: what it has solved would be valued by that, not by the rule.
    explicit Rollout(Desk& desk) : desk_(desk) {}

    // The first choice, and what following this rule to the end takes.
    Choice follow(SetId set, const access::Standing& standing);

  private:
    // What can be done first, laying the whole group bare among it where plans may end so.
    std::vector<Beginning> choices(SetId set, const access::Standing& standing);
    // Of one choice or more.
    Beginning pick(SetId set, const access::Standing& standing, std::vector<Beginning> choices);
    // Minutes are weighted.
    Plan follow_with(SetId set, const access::Standing& standing, const Beginning& first);
    Plan rest(SetId set, const access::Standing& standing);

    Desk& desk_;
};

}  // namespace halfsplit::plan
