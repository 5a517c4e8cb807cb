// A plan for what the search did not come to the end of: most information per minute, and single looks where
// they may be had at any time, until so few are suspected that the rest can be searched to its end, each such
// rest with its share of a budget of expansions. Errs high: it is a plan. Never worse than the rule of thumb
// it follows, stopped where laying bare what is left takes no longer.
#pragma once

#include "plan/rule_plan.hpp"

#include <cstdint>
#include <vector>

namespace halfsplit::plan {

class AnytimePlan {
  public:
    // `limits.states`: of all the rests together; 0: the rule of thumb alone.
    // `whole`: the search that did not come to its end; what it knows is used.
    AnytimePlan(const Model& model, SuspectSets& sets, Weights& weights, Search& whole, const Limits& limits);

    Plan follow(SetId set, const access::Standing& standing);
    // What that plan does first. Not where `whole` is solved.
    Move move(SetId set, const access::Standing& standing);
    std::uint64_t expansions() const { return search_.expansions(); }

  private:
    // A test of Model::tests, or a look at one element; neither: the group is laid bare.
    struct First {
        std::uint32_t test = IndexTable::none, element = IndexTable::none;
        bool is_none() const { return test == IndexTable::none && element == IndexTable::none; }
    };
    struct Known {
        bool worked_out = false;
        Plan plan;
        First first;
    };

    // Of a few tests and looks the one after which the rule of thumb takes least.
    First choose(SetId set, const access::Standing& standing);
    double by_rule_after(SetId set, const access::Standing& standing, const First& first);
    std::vector<std::uint32_t> worth_a_look(SetId set, const access::Standing& standing) const;
    const access::Site& site_of(const First& first) const;
    std::vector<SetId> left_by(SetId set, const First& first);
    // Of the rule of thumb followed from here.
    double by_rule(SetId set, const access::Standing& standing);
    StateId work_out(SetId set, const access::Standing& standing, bool granted);
    Known chosen(SetId set, const access::Standing& standing, bool granted);
    Known by_rule_alone(SetId set, const access::Standing& standing);
    bool search_to_the_end(SetId set, StateId id, bool& granted);
    Plan follow_with(SetId set, const access::Standing& standing, const First& first, bool granted);
    Plan value(StateId id) { return search_.solved(id) ? search_.plan(id) : known_[id].plan; }

    const Model& model_;
    SuspectSets& sets_;
    Weights& weights_;
    RulePlan rule_;
    Search& whole_;
    Search search_;
    std::uint64_t states_;
    double states_each_;  // by element of the whole
    double allowance_ = 0;
    double weighed_ = 0;           // words of masks gone through for rollouts
    std::vector<double> by_rule_;  // by state of the search; below 0: not worked out
    std::vector<Known> known_;     // by state of the search
};

}  // namespace halfsplit::plan
