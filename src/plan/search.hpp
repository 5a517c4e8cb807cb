// The recursion itself: depth-first over (suspects, covers off, place), every state kept with what is known
// of it, cut by lower bounds. Minutes are weighted throughout: expected minutes times the weight of the
// suspects.
#pragma once

#include "halfsplit/plan/exact.hpp"

#include "plan/group.hpp"
#include "plan/weights.hpp"

#include <array>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

namespace halfsplit::plan {

using StateId = std::uint32_t;

struct Plan {
    double minutes = 0;  // weighted
    double worst = 0;    // minutes
};

// Where a look leads: on when it is not the fault; and on when it is, but mending it does not cure.
struct AfterLook {
    std::array<StateId, 2> states{};
    std::uint32_t count = 0;
    const StateId* begin() const { return states.data(); }
    const StateId* end() const { return states.data() + count; }
};

// What a plan does first with a set.
struct Move {
    Step step = Step::Done;
    std::uint32_t index = 0;           // of Model::tests, or the element that is looked at
    std::vector<std::uint32_t> group;  // elements laid bare one after another, to the end; then no `index`
};

class Search;

// Set where a belief is another one with the suspects of the second part made less likely by one factor: a
// set wholly inside one of the two parts is worth what it was worth there, scaled.
struct Before {
    Search* search = nullptr;
    double factor = 1;
};

class Search {
  public:
    // `parts`: what a set is taken apart into for bounding, as masks side by side; each suspect in one of
    // them.
    Search(const Model& model, SuspectSets& sets, Weights& weights, std::vector<Word> parts,
           const Limits& limits, const Before& before = {});

    // The state of knowing `set` at `standing`; covers nobody will want again are forgotten.
    StateId state(SetId set, const access::Standing& standing);
    // Works until the state's minutes are known or are known to be at least `budget`, or expansions run out.
    void settle(StateId id, double budget);
    bool solved(StateId id) const { return states_[id].action != unknown; }
    SetId set_of(StateId id) const { return states_[id].set; }
    double lower(StateId id) const { return states_[id].lower; }  // the minutes themselves when solved
    // The best plan from a solved state; its minutes exceed lower() only where a large group's order is not
    // proven.
    Plan plan(StateId id);

    // The first step of that plan. Not where the belief is another one's, scaled.
    Move move(StateId id) const;

    // Weighted minutes of a test by itself.
    double minutes_now(SetId set, const access::Standing& standing, const PlannedTest& test);
    // Weighted minutes of a look by itself.
    double minutes_now(SetId set, const access::Standing& standing, const BareSite& look);
    AfterLook after_look(SetId set, const access::Standing& standing, std::uint32_t element);
    // May single elements be laid bare before all tests are made? Always where the hunt may go on after a
    // find: then nobody knows before it what is left to be read.
    bool may_look(SetId set) const;
    // The state after one of a test's outcomes.
    StateId after(const access::Standing& standing, const PlannedTest& test, SetId child);
    // May the set be laid bare member by member now?
    bool may_lay_bare(SetId set) const;

    bool exhausted() const {
        return expansions_ >= most_expansions_ || (before_.search != nullptr && before_.search->exhausted());
    }
    std::uint64_t expansions() const { return expansions_; }
    // So many in all, instead of what it was made with.
    void allow(std::uint64_t expansions) { most_expansions_ = expansions; }

    // Differences below this times the weight are taken for rounding.
    static constexpr double rounding = 1e-11;
    static constexpr double infinity = std::numeric_limits<double>::infinity();

  private:
    // Else: index of a split, or, from first_look down, a look at an element.
    static constexpr std::int32_t unknown = -1, lay_bare = -2, done = -3, as_before = -4, first_look = -5;

    // Fewer elements are quicker searched than taken apart.
    static constexpr std::uint32_t least_halved = 8;

    struct State {
        SetId set = 0;
        std::uint32_t place = 0;
        access::CoverSet off = 0;
        double lower = 0;
        std::int32_t action = unknown;
        StateId before = IndexTable::none;  // the same state of `before_`
    };
    // A test or look to try; `lower` is first taken from its site alone, then from what it leaves as well.
    struct Candidate {
        double lower = 0;
        std::uint32_t split = 0;  // or the element
        bool worked_out = false;
        bool look = false;
        // Heaps have the greatest on top: what looks cheapest, and of equals the one nearer to being tried.
        bool operator<(const Candidate& other) const {
            if (lower != other.lower) return lower > other.lower;
            if (look != other.look) return look;
            return worked_out != other.worked_out ? !worked_out : split > other.split;
        }
    };
    // What is known of a state while it is expanded: the best plan so far, and the least any other may come
    // to.
    struct Outlook {
        double best = infinity, others = infinity;
        std::int32_t action = unknown;
    };

    static std::uint64_t hash_of(SetId set, std::uint32_t place, access::CoverSet off);
    std::size_t part_count() const { return parts_.size() / model_.words; }
    std::span<const Word> part(std::size_t index) const;
    bool meets(SetId set, std::size_t index) const;
    bool in_one_part(SetId set) const;
    double reaching(const SetWeight& weight, const access::Standing& standing) const;
    bool finish_trivial(State& state);
    double scale(SetId set) const { return meets(set, 1) ? before_.factor : 1; }
    void take_from_before(State& state);
    void settle_parts(StateId id, double budget);
    // None where bounding them says nothing more.
    std::vector<SetId> parts_of(SetId set);
    std::vector<SetId> halves_of(SetId set);
    void expand(StateId id, double budget);
    std::vector<Candidate> candidates(StateId id);
    void add_looks(StateId id, std::vector<Candidate>& heap);
    double base_at(const SetWeight& weight, std::uint32_t pocket, access::CoverSet off);
    bool work_out(StateId id, Candidate& candidate);
    void try_look(StateId id, const Candidate& candidate, double budget, Outlook& outlook);
    void try_test(StateId id, const Candidate& candidate, double budget, Outlook& outlook);
    void try_step(double now, std::span<const StateId> next, std::int32_t action, double budget,
                  Outlook& outlook);
    void try_group(StateId id, double budget, Outlook& outlook);

    const Model& model_;
    SuspectSets& sets_;
    Weights& weights_;
    std::vector<Word> parts_;
    std::uint64_t most_expansions_, expansions_ = 0;
    Looks looks_;
    Before before_;
    bool may_part_;  // being told for nothing in which part the fault is may bound a set
    IndexTable table_;
    std::vector<State> states_;
    std::vector<double> pocket_base_;  // scratch of candidates()
};

}  // namespace halfsplit::plan
