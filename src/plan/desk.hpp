// One belief to plan under, with what has been found out about it so far. Asking again, from the same state
// or another, uses everything found out before.
#pragma once

#include "halfsplit/plan/exact.hpp"

#include "plan/rule_plan.hpp"

#include <cstdint>
#include <vector>

namespace halfsplit::plan {

// Expected minutes closer than this are a tie.
inline constexpr double tie_minutes = 1e-9;

// Tests, hypotheses and their sets; what desks of related beliefs share.
struct Ground {
    Ground(const Outline& outline, const std::vector<double>& weight_of_kind)
        : model(outline, weight_of_kind), sets(model) {}
    Ground(const Ground&) = delete;
    Ground& operator=(const Ground&) = delete;

    Model model;
    SuspectSets sets;
};

// A first step and what it leads to. Minutes are weighted.
struct Beginning {
    bool lay_bare = false;  // the whole group, member by member; or one element, tests afterwards
    std::uint32_t element = IndexTable::none;  // that one
    std::uint32_t test = 0;                    // of Model::tests
    std::vector<SetId> left;                   // by outcome
    std::vector<StateId> next;
    double now = 0;
    double lower = 0;  // of the whole; the least there is when settled
    bool settled = false;
    bool taken = false;  // handed out by Beginnings::next

    bool lays_group_bare() const { return lay_bare && element == IndexTable::none; }
};

class Desk {
  public:
    Desk(Ground& ground, const Limits& limits);
    // The belief of another desk after a reading that speaks for `likelier` and makes the others less likely
    // by `factor` (above 0). Both must have members. What is found out at either serves the other; `before`
    // must outlive this one.
    Desk(Desk& before, const std::vector<Word>& likelier, double factor, const Limits& limits);
    Desk(const Desk&) = delete;
    Desk& operator=(const Desk&) = delete;

    const Model& model() const { return ground_.model; }
    SuspectSets& sets() { return ground_.sets; }
    std::uint64_t expansions() const { return search_.expansions(); }
    bool exhausted() const { return search_.exhausted(); }
    double weight(SetId set) { return weights_.of(set).weight; }
    bool may_lay_bare(SetId set) const { return search_.may_lay_bare(set); }
    bool may_look(SetId set) const { return search_.may_look(set); }
    // Of a first step that is not the whole group.
    const access::Site& site_of(const Beginning& beginning) const {
        return beginning.lay_bare ? ground_.model.bare[beginning.element].site
                                  : ground_.model.tests[beginning.test].site;
    }

    // Searches until the least expected minutes are known or are known to be `budget` or more.
    void settle(SetId set, const access::Standing& standing, double budget);
    // At most the expected minutes of any plan, from what is known so far.
    double lower_bound(SetId set, const access::Standing& standing);
    // The best plan found, in expected minutes; the best there is where settle() came to its end.
    Plan value(SetId set, const access::Standing& standing);
    // The first step of the best plan found; where settle() did not come to its end, of the rule of thumb.
    Move move(SetId set, const access::Standing& standing);
    // Any rule but Rule::Rollout.
    Choice follow(SetId set, const access::Standing& standing, Rule which);

    StateId state(SetId set, const access::Standing& standing) { return search_.state(set, standing); }
    bool solved(SetId set, const access::Standing& standing) { return search_.solved(state(set, standing)); }
    std::vector<Member> members(SetId set) const { return weights_.members(set); }
    Order order(SetId set, const access::Standing& standing) const;
    // Every test that splits the set and is not superfluous, and every look at one element; a group of more
    // than `exact_group` that no test splits as a whole.
    std::vector<Beginning> single_steps(SetId set, const access::Standing& standing);
    // Every test that splits the set and is not superfluous; laying bare where that is allowed: each element
    // by itself in the class of looks at any time, where a test splits the set; else the whole group.
    std::vector<Beginning> beginnings(SetId set, const access::Standing& standing);
    // Settles as far as showing that it comes to `budget` or more will do.
    void settle(Beginning& beginning, double budget);
    // The best plan known that begins so, weighted: solved where it is, else by rule of thumb, which stops
    // reading where looking takes no longer.
    Plan best_known(SetId set, const access::Standing& standing, const Beginning& beginning,
                    RulePlan::Stopping stopping = RulePlan::Stopping::WhereCheaper);
    Choice as_choice(SetId set, const access::Standing& standing, const Beginning& beginning,
                     const Plan& plan);
    // The test that most information per minute picks (of Model::tests), or IndexTable::none.
    std::uint32_t picked_by_rule(SetId set, const access::Standing& standing);

  private:
    std::vector<Beginning> tests(SetId set, const access::Standing& standing);
    void add_looks(SetId set, const access::Standing& standing, std::vector<Beginning>& result);
    void add_group(SetId set, const access::Standing& standing, std::vector<Beginning>& result);
    RulePlan rule(Rule rule) { return {ground_.model, ground_.sets, weights_, rule}; }
    // What is followed where the search did not come to its end.
    RulePlan fallback(RulePlan::Stopping stopping = RulePlan::Stopping::WhereCheaper) {
        return {ground_.model, ground_.sets, weights_, Rule::InformationPerMinute, stopping};
    }

    Ground& ground_;
    Weights weights_;
    Search search_;
};

}  // namespace halfsplit::plan
