// Ranking the choices at one state: what `solve` and `one_step` answer from.
#pragma once

#include "halfsplit/plan/exact.hpp"
#include "plan/rule_plan.hpp"

#include <cstdint>
#include <vector>

namespace halfsplit::plan {

struct RootChoice {
    Choice choice;        // expected and worst minutes of the best plan known that begins with it
    bool valued = false;  // no plan that begins with it is better
};

struct Ranking {
    std::vector<RootChoice> choices;  // best first; empty when nothing is left to do
    double lower_bound = 0;           // expected minutes
    bool proven = false;
};

// One belief to plan under: the model and what has been found out about it so far. Asking again from another state
// reuses everything found out before.
class Desk {
  public:
    Desk(const Outline& outline, const std::vector<double>& weight_of_kind, std::uint64_t most_expansions);
    Desk(const Desk&) = delete;
    Desk& operator=(const Desk&) = delete;

    const Model& model() const { return model_; }
    SuspectSets& sets() { return sets_; }
    std::uint64_t expansions() const { return search_.expansions(); }

    // At most the expected minutes of any plan; no search.
    double quick_bound(SetId set, const access::Standing& standing);
    // The best plan found, in expected minutes; the best there is, where the search ran its course.
    Plan value(SetId set, const access::Standing& standing);
    // The best choice and `alternatives` more, all valued where the search ran its course.
    Ranking rank(SetId set, const access::Standing& standing, std::size_t alternatives);
    Choice follow(SetId set, const access::Standing& standing, Rule rule);

  private:
    // A test, or laying bare; minutes weighted.
    struct Action {
        bool lay_bare = false;
        std::uint32_t test = 0;  // of Model::tests
        std::vector<StateId> next;
        double now = 0;    // weighted
        double lower = 0;  // weighted; of the whole
        bool settled = false;
    };

    std::vector<Action> actions(SetId set, const access::Standing& standing);
    void settle(Action& action, double budget);
    void settle_best(std::vector<Action>& actions, std::size_t wanted, double tie);
    Plan best_known(SetId set, const access::Standing& standing, const Action& action);
    Choice as_choice(SetId set, const access::Standing& standing, const Action& action, const Plan& plan) const;
    std::vector<const Action*> worth_showing(SetId set, const access::Standing& standing,
                                             const std::vector<Action>& actions);

    Model model_;
    SuspectSets sets_;
    Search search_;
};

Solution as_solution(const Ranking& ranking, const Desk& desk);

}  // namespace halfsplit::plan
