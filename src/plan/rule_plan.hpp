// Following a rule of thumb on the sets and states of the search: any but Rule::Rollout, which follows one of
// these (rollout.hpp).
#pragma once

#include "halfsplit/plan/rules.hpp"

#include "plan/search.hpp"

namespace halfsplit::plan {

class RulePlan {
  public:
    // Stopping: where a group that may be laid bare now takes no longer that way than by reading on, it is.
    // So never worse than the rule alone.
    enum class Stopping { Never, WhereCheaper };
    RulePlan(const Model& model, SuspectSets& sets, Weights& weights, Rule rule,
             Stopping stopping = Stopping::Never)
        : model_(model), sets_(sets), weights_(weights), rule_(rule), stopping_(stopping) {}

    // The test the rule picks (of Model::tests), or IndexTable::none when none splits the set.
    std::uint32_t pick(SetId set, const access::Standing& standing) const;
    // Following the rule to the end; a group that no test splits is laid bare in the best order known, and
    // one whose members differ by what follows after the find alone.
    Plan follow(SetId set, const access::Standing& standing);
    // Does following it lay the group bare now?
    bool lays_bare(SetId set, const access::Standing& standing);
    Plan follow_with(SetId set, const access::Standing& standing, std::uint32_t index);

  private:
    // Less is better, then less minutes, then the earlier test.
    struct Score {
        double value = 0, minutes = 0;
        std::size_t index = 0;
    };
    static bool better(const Score& a, const Score& b);
    Score score(SetId set, const PlannedTest& test, const access::Standing& standing) const;
    bool may_stop(SetId set) const;
    Plan lay_bare(SetId set, const access::Standing& standing);
    double share(SetId set, std::span<const Word> mask) const;

    const Model& model_;
    SuspectSets& sets_;
    Weights& weights_;
    Rule rule_;
    Stopping stopping_;
};

}  // namespace halfsplit::plan
