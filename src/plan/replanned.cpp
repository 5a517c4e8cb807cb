#include "halfsplit/plan/replanned.hpp"

#include <algorithm>
#include <limits>
#include <utility>
#include <vector>

namespace halfsplit::plan {

using access::Standing;

namespace {

// A plan of some of the hypotheses, in their numbers and chances of the whole problem; never empty.
using Steps = std::vector<PolicyStep>;

// Plans closer than this are as good.
constexpr double same_minutes = 1e-9;

// What is planned from `at` on, as steps of their own.
Steps part_of(const Steps& steps, std::size_t at) {
    Steps result{steps[at]};
    for (std::size_t i = 0; i < result.size(); ++i) {
        for (std::size_t b = 0; b < result[i].branches.size(); ++b) {
            std::size_t& next = result[i].branches[b].next;
            if (next == Policy::over) continue;
            const std::size_t before = next;
            next = result.size();
            result.push_back(steps[before]);
        }
    }
    return result;
}

// Where they begin in the plan they are added to.
std::size_t append(Steps& plan, const Steps& more) {
    const std::size_t first = plan.size();
    for (PolicyStep step : more) {
        for (PolicyStep::Branch& branch : step.branches)
            if (branch.next != Policy::over) branch.next += first;
        plan.push_back(std::move(step));
    }
    return first;
}

class Replanner {
  public:
    Replanner(const Problem& problem, const Replanning& options, const Objective& objective)
        : problem_(problem), options_(options), objective_(objective) {}

    Policy run() {
        Policy first = policy(problem_, options_.limits, objective_);
        if (first.solution.proven || first.steps.empty()) return first;
        for (const Hypothesis& hypothesis : problem_.hypotheses) total_ += hypothesis.probability;
        take_what_follows();
        cap_ = cap(first.solution.best.worst_minutes);
        minutes_.assign(problem_.hypotheses.size(), 0);
        first.steps = replan(first.steps, problem_.start, 0);
        sum_up(first);
        return first;
    }

  private:
    // Beyond which no worst case may go, from the start.
    double cap(double worst) const {
        if (objective_.is_expected_alone()) return std::numeric_limits<double>::infinity();
        return objective_.least_worst ? worst : std::max(worst, objective_.worst_at_most);
    }

    void take_what_follows() {
        follows_.assign(problem_.hypotheses.size(), cured);
        for (const Hypothesis& hypothesis : problem_.hypotheses) weight_.push_back(hypothesis.probability);
        for (std::size_t h = 0; h < weight_.size(); ++h) {
            const std::size_t then = goes_on_to(problem_, h);
            if (then == cured) continue;
            follows_[then] = h;
            if (problem_.hypotheses[h].probability > 0) weight_[then] = problem_.hypotheses[h].probability;
        }
    }

    void sum_up(Policy& policy) {
        const Worth worth = worth_of(policy.steps, 0);
        policy.minutes = minutes_;
        policy.solution.best.expected_minutes = worth.expected / total_;
        policy.solution.best.worst_minutes = worth.worst;
        policy.solution.states += spent_states_;
        policy.solution.proven =
            objective_.is_expected_alone() &&
            policy.solution.best.expected_minutes <= policy.solution.lower_bound + same_minutes;
    }

    // The first step as it is, with what comes after it planned anew.
    Steps replan(const Steps& known, const Standing& standing, double spent) {
        Steps result{known.front()};
        const PolicyStep& first = known.front();
        const Standing then = after(first, standing);
        for (const std::size_t b : likeliest_first(first)) {
            const PolicyStep::Branch& branch = first.branches[b];
            if (branch.next == Policy::over) continue;
            Steps rest = part_of(known, branch.next);
            const bool worth_it = branch.chance >= options_.least_chance && branch.chance > 0 &&
                                  spent_states_ < options_.states;
            if (worth_it) rest = improved(std::move(rest), then, spent + first.minutes);
            result.front().branches[b].next = append(result, rest);
        }
        return result;
    }

    Steps improved(Steps known, const Standing& standing, double spent) {
        const std::vector<std::size_t> suspects = known.front().suspects;
        Objective objective;
        if (!objective_.is_expected_alone()) objective.worst_at_most = std::max(0.0, cap_ - spent);
        const Policy fresh = policy(restricted(suspects, standing), options_.limits, objective);
        spent_states_ += fresh.solution.states;
        Steps own = in_numbers_of_the_whole(fresh, suspects);
        if (!own.empty() && better(own, known, spent)) known = std::move(own);
        return fresh.solution.proven ? known : replan(known, standing, spent);
    }

    static std::vector<std::size_t> likeliest_first(const PolicyStep& step) {
        std::vector<std::size_t> order(step.branches.size());
        for (std::size_t b = 0; b < order.size(); ++b) order[b] = b;
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return step.branches[a].chance > step.branches[b].chance;
        });
        return order;
    }

    Standing after(const PolicyStep& step, const Standing& standing) const {
        const access::Site& site =
            step.step == Step::Test ? problem_.tests[step.index].site : problem_.bare[step.index];
        return {site.place, standing.off | problem_.workshop.closure(site.need)};
    }

    // Those that may be true, and behind them what they go on to.
    std::vector<std::size_t> with_what_follows(const std::vector<std::size_t>& suspects) const {
        std::vector<std::size_t> all = suspects;
        for (const std::size_t h : suspects)
            if (problem_.hypotheses[h].then != cured) all.push_back(problem_.hypotheses[h].then);
        return all;
    }

    // The problem that is left of the whole with these hypotheses.
    Problem restricted(const std::vector<std::size_t>& suspects, const Standing& standing) const {
        Problem rest;
        rest.workshop = problem_.workshop;
        rest.start = standing;
        rest.bare = problem_.bare;
        const std::vector<std::size_t> all = with_what_follows(suspects);
        std::size_t then = suspects.size();
        for (std::size_t i = 0; i < all.size(); ++i) {
            const Hypothesis& own = problem_.hypotheses[all[i]];
            const bool may_be = i < suspects.size();
            rest.hypotheses.push_back(
                {may_be ? weight_[all[i]] : 0, own.element, may_be && own.then != cured ? then++ : cured});
        }
        for (const Test& test : problem_.tests) {
            rest.tests.push_back({test.site, {}, test.slip, test.slip_outcome});
            for (const std::size_t h : all) rest.tests.back().outcome.push_back(test.outcome[h]);
        }
        return rest;
    }

    Steps in_numbers_of_the_whole(const Policy& policy, const std::vector<std::size_t>& suspects) const {
        double share = 0;
        for (const std::size_t h : suspects) share += weight_[h] / total_;
        const std::vector<std::size_t> all = with_what_follows(suspects);
        Steps steps = policy.steps;
        for (PolicyStep& step : steps) {
            step.chance *= share;
            for (PolicyStep::Branch& branch : step.branches) branch.chance *= share;
            for (std::size_t& h : step.suspects) h = all[h];
        }
        return steps;
    }

    struct Worth {
        double expected = 0;  // times the probability of its hypotheses
        double worst = 0;
    };

    // `spent` minutes into the hunt.
    Worth worth_of(const Steps& steps, double spent) {
        std::vector<double> begin(steps.size(), spent);
        Worth worth;
        for (std::size_t i = 0; i < steps.size(); ++i) {
            const double end = begin[i] + steps[i].minutes;
            for (const PolicyStep::Branch& branch : steps[i].branches) {
                if (branch.next != Policy::over)
                    begin[branch.next] = end;
                else
                    add_ended(steps[i], branch.outcome, end, worth);
            }
        }
        return worth;
    }

    void add_ended(const PolicyStep& step, int outcome, double minutes, Worth& worth) {
        for (const std::size_t h : step.suspects) {
            const Hypothesis& own = problem_.hypotheses[h];
            const int shown = step.step == Step::Test     ? problem_.tests[step.index].outcome[h]
                              : own.element != step.index ? 1
                              : own.then == cured         ? 0
                                                          : 2;
            if (shown != outcome) continue;
            minutes_[h] = minutes;
            if (follows_[h] != cured) minutes_[follows_[h]] = minutes;
            worth.expected += weight_[h] * minutes;
            if (weight_[h] > 0) worth.worst = std::max(worth.worst, minutes);
        }
    }

    bool better(const Steps& one, const Steps& other, double spent) {
        const Worth a = worth_of(one, spent), b = worth_of(other, spent);
        const bool a_keeps = a.worst <= cap_ + same_minutes, b_keeps = b.worst <= cap_ + same_minutes;
        if (a_keeps != b_keeps) return a_keeps;
        return a_keeps ? a.expected < b.expected : a.worst < b.worst;
    }

    const Problem& problem_;
    const Replanning& options_;
    const Objective& objective_;
    double total_ = 0;            // of all probabilities
    std::vector<double> weight_;  // by hypothesis: its probability, or that of the one that goes on to it
    std::vector<std::size_t> follows_;  // by hypothesis: the one that goes on to it, or `cured`
    double cap_ = 0;
    std::uint64_t spent_states_ = 0;
    std::vector<double> minutes_;  // by hypothesis, of the plan valued last
};

}  // namespace

Policy replanned(const Problem& problem, const Replanning& options, const Objective& objective) {
    return Replanner(problem, options, objective).run();
}

}  // namespace halfsplit::plan
