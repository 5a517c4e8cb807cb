// The recursion itself: depth-first over (suspects, covers off, place), every state kept with what is known of it, cut
// by lower bounds. Minutes are weighted throughout: expected minutes times the weight of the suspects.
#pragma once

#include "plan/group.hpp"
#include "plan/suspect_sets.hpp"

#include <cstdint>
#include <limits>
#include <vector>

namespace halfsplit::plan {

using StateId = std::uint32_t;

struct Plan {
    double minutes = 0;  // weighted
    double worst = 0;
};

class Search {
  public:
    Search(const Model& model, SuspectSets& sets, std::uint64_t most_expansions);

    // The state of knowing `set` at `standing`; covers nobody will want again are forgotten.
    StateId state(SetId set, const access::Standing& standing);
    // Works until the state's minutes are known or are known to be at least `budget`, or expansions run out.
    void settle(StateId id, double budget);
    bool solved(StateId id) const { return states_[id].action != unknown; }
    double lower(StateId id) const { return states_[id].lower; }  // the minutes themselves when solved
    // The best plan from a solved state; its minutes exceed lower() only where a large group's order is not proven.
    Plan plan(StateId id);

    // Minutes of making a split's test, weighted; without what comes after.
    double minutes_now(SetId set, const access::Standing& standing, const PlannedTest& test) const;
    // The state after one of a split's outcomes.
    StateId after(const access::Standing& standing, const PlannedTest& test, SetId child);
    // May the set be laid bare member by member now?
    bool may_lay_bare(SetId set) const;
    std::vector<Member> members(SetId set) const;

    bool exhausted() const { return expansions_ >= most_expansions_; }
    std::uint64_t expansions() const { return expansions_; }

    // Differences below this times the weight are taken for rounding.
    static constexpr double rounding = 1e-11;
    static constexpr double infinity = std::numeric_limits<double>::infinity();

  private:
    static constexpr std::int32_t unknown = -1, lay_bare = -2, done = -3;  // other actions: index of a split

    struct State {
        SetId set = 0;
        std::uint32_t place = 0;
        access::CoverSet off = 0;
        double lower = 0;
        std::int32_t action = unknown;
    };
    // A test to try; `lower` is first taken from its site alone, then from what it leaves as well.
    struct Candidate {
        double lower = 0;
        std::uint32_t split = 0;
        bool worked_out = false;
        // Heaps have the greatest on top: what looks cheapest, and of equals the one nearer to being tried.
        bool operator<(const Candidate& other) const {
            if (lower != other.lower) return lower > other.lower;
            return worked_out != other.worked_out ? !worked_out : split > other.split;
        }
    };
    // What is known of a state while it is expanded: the best plan so far, and the least any other may come to.
    struct Outlook {
        double best = infinity, others = infinity;
        std::int32_t action = unknown;
    };

    static std::uint64_t hash_of(SetId set, std::uint32_t place, access::CoverSet off);
    double bound(SetId set, const access::Standing& standing) const;
    double reaching(SetId set, const access::Standing& standing) const;
    bool finish_trivial(StateId id);
    void settle_families(StateId id, double budget);
    void expand(StateId id, double budget);
    std::vector<Candidate> candidates(StateId id);
    bool work_out(StateId id, Candidate& candidate);
    void try_test(StateId id, const Candidate& candidate, double budget, Outlook& outlook);
    void try_group(StateId id, double budget, Outlook& outlook);

    const Model& model_;
    SuspectSets& sets_;
    std::uint64_t most_expansions_, expansions_ = 0;
    IndexTable table_;
    std::vector<State> states_;
    std::vector<double> pocket_base_;  // scratch of candidates()
};

}  // namespace halfsplit::plan
