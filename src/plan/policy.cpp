#include "halfsplit/plan/policy.hpp"

#include "plan/both_classes.hpp"
#include "plan/ranking.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

namespace halfsplit::plan {

using access::Standing;

namespace {

class Writer {
  public:
    Writer(const Problem& problem, const Limits& limits)
        : problem_(problem),
          limits_(limits),
          outline_(problem),
          ground_(outline_, outline_.prior()),
          desk_(ground_, limits) {
        policy_.minutes.assign(problem.hypotheses.size(), 0);
        double total = 0;
        for (const Hypothesis& hypothesis : problem.hypotheses) total += hypothesis.probability;
        for (const Hypothesis& hypothesis : problem.hypotheses)
            prior_.push_back(hypothesis.probability / total);
    }

    Policy run() {
        const SetId all = ground_.sets.all();
        policy_.solution = rank_all(desk_, all, problem_.start, 0);
        policy_.solution.looks = limits_.looks;
        std::vector<std::size_t> everything(problem_.hypotheses.size());
        std::iota(everything.begin(), everything.end(), std::size_t{0});
        write(first(desk_.move(all, problem_.start)), problem_.start, everything, 0);
        return std::move(policy_);
    }

  private:
    // Where the search ran out, the ranking may know a better beginning than the rule of thumb.
    Move first(Move move) const {
        const Choice& best = policy_.solution.best;
        if (policy_.solution.proven || best.step != Step::Test) return move;
        const auto& tests = ground_.model.tests;
        const auto own = std::find_if(tests.begin(), tests.end(),
                                      [&](const PlannedTest& test) { return test.index == best.index; });
        return {Step::Test, static_cast<std::uint32_t>(own - tests.begin()), {}};
    }

    // Writes what is done with these suspects, `spent` minutes into the hunt; where in the policy it begins.
    std::size_t write(const Move& move, const Standing& standing, const std::vector<std::size_t>& suspects,
                      double spent) {
        if (move.step == Step::Test) return write_test(move.index, standing, suspects, spent);
        if (move.step == Step::LayBare && !move.group.empty())
            return write_group(move.group, standing, suspects, spent);
        if (move.step == Step::LayBare) return write_look(move.index, standing, suspects, spent);
        for (const std::size_t h : suspects) policy_.minutes[h] = spent;
        return Policy::over;
    }

    std::size_t begin(Step step, std::size_t index, double minutes,
                      const std::vector<std::size_t>& suspects) {
        policy_.steps.push_back({step, index, minutes, chance_of(suspects), {}, suspects});
        return policy_.steps.size() - 1;
    }

    std::size_t write_test(std::uint32_t index, const Standing& standing,
                           const std::vector<std::size_t>& suspects, double spent) {
        const PlannedTest& test = ground_.model.tests[index];
        const std::vector<int>& outcome = problem_.tests[test.index].outcome;
        const double minutes = reach(test.site, standing);
        const std::size_t own = begin(Step::Test, test.index, minutes, suspects);
        std::map<int, std::vector<std::size_t>> left;
        for (const std::size_t h : suspects) left[outcome[h]].push_back(h);
        for (const auto& [shown, hypotheses] : left)
            add_branch(own, shown, hypotheses, at(test.site, standing), spent + minutes);
        return own;
    }

    std::size_t write_look(std::uint32_t element, const Standing& standing,
                           const std::vector<std::size_t>& suspects, double spent) {
        const access::Site& site = ground_.model.bare[element].site;
        const double minutes = reach(site, standing);
        const auto [own, others] = look(element, minutes, suspects, spent);
        if (!others.empty()) add_branch(own, 1, others, at(site, standing), spent + minutes);
        return own;
    }

    // The whole group, in its order.
    std::size_t write_group(const std::vector<std::uint32_t>& elements, Standing standing,
                            std::vector<std::size_t> suspects, double spent) {
        const std::size_t first = policy_.steps.size();
        for (const std::uint32_t element : elements) {
            const access::Site& site = ground_.model.bare[element].site;
            const double minutes = reach(site, standing);
            const auto [own, others] = look(element, minutes, suspects, spent);
            if (!others.empty())
                policy_.steps[own].branches.push_back({1, chance_of(others), policy_.steps.size()});
            suspects = others;
            spent += minutes;
            standing = at(site, standing);
        }
        if (!suspects.empty()) policy_.steps.back().branches.back().next = Policy::over;
        return first;
    }

    // A look as a step, with what it leaves when it is not the fault.
    std::pair<std::size_t, std::vector<std::size_t>> look(std::uint32_t element, double minutes,
                                                          const std::vector<std::size_t>& suspects,
                                                          double spent) {
        const std::size_t index = ground_.model.bare[element].index;
        const std::size_t own = begin(Step::LayBare, index, minutes, suspects);
        std::vector<std::size_t> guilty, others;
        for (const std::size_t h : suspects)
            (problem_.hypotheses[h].element == index ? guilty : others).push_back(h);
        for (const std::size_t h : guilty) policy_.minutes[h] = spent + minutes;
        policy_.steps[own].branches.push_back({0, chance_of(guilty), Policy::over});
        return {own, std::move(others)};
    }

    void add_branch(std::size_t own, int outcome, const std::vector<std::size_t>& left, const Standing& then,
                    double spent) {
        const SetId set = set_of(left);
        const std::size_t next =
            set == IndexTable::none ? Policy::over : write(desk_.move(set, then), then, left, spent);
        policy_.steps[own].branches.push_back({outcome, chance_of(left), next});
    }

    // None where all of them have no chance.
    SetId set_of(const std::vector<std::size_t>& hypotheses) {
        std::vector<char> wanted(outline_.kinds.size(), 0);
        for (const std::size_t h : hypotheses) wanted[outline_.kind_of[h]] = 1;
        std::vector<Word> bits(ground_.model.words, 0);
        bool any = false;
        for (std::size_t s = 0; s < ground_.model.suspects.size(); ++s) {
            if (wanted[ground_.model.kind[s]] == 0) continue;
            bits[s / word_bits] |= Word{1} << s % word_bits;
            any = true;
        }
        return any ? ground_.sets.intern(bits) : IndexTable::none;
    }

    double chance_of(const std::vector<std::size_t>& hypotheses) const {
        double sum = 0;
        for (const std::size_t h : hypotheses) sum += prior_[h];
        return sum;
    }
    double reach(const access::Site& site, const Standing& standing) const {
        return problem_.workshop.reach(site, standing.place, standing.off);
    }
    static Standing at(const access::Site& site, const Standing& standing) {
        return {site.place, standing.off | site.need};
    }

    const Problem& problem_;
    Limits limits_;
    Outline outline_;
    Ground ground_;
    Desk desk_;
    std::vector<double> prior_;  // by hypothesis, sums to 1
    Policy policy_;
};

}  // namespace

Policy policy(const Problem& problem, const Limits& limits) {
    require_sound(problem);
    Policy last = Writer(problem, {limits.states, Looks::Last}).run();
    if (limits.looks == Looks::Last) return last;
    Policy any_time = Writer(problem, for_looks_at_any_time(limits)).run();
    if (any_time.solution.proven ||
        any_time.solution.best.expected_minutes < last.solution.best.expected_minutes)
        return any_time;
    take_bound_of_any_time(last.solution, any_time.solution.lower_bound);
    return last;
}

double minutes_within(const Policy& policy, const Problem& problem, double probability) {
    std::vector<std::pair<double, double>> spread;  // minutes and their chance
    double total = 0;
    for (std::size_t h = 0; h < policy.minutes.size(); ++h) {
        spread.emplace_back(policy.minutes[h], problem.hypotheses[h].probability);
        total += problem.hypotheses[h].probability;
    }
    std::sort(spread.begin(), spread.end());
    double sum = 0;
    for (const auto& [minutes, chance] : spread) {
        sum += chance / total;
        if (chance > 0 && sum >= probability - 1e-12) return minutes;
    }
    return spread.empty() ? 0 : spread.back().first;
}

}  // namespace halfsplit::plan
