#include "plan/capped_search.hpp"

#include <algorithm>

namespace halfsplit::plan {

namespace {

// A cap is kept by what exceeds it by rounding alone.
constexpr double cap_rounding = 1e-9;

}  // namespace

std::optional<CappedPlan> CappedSearch::best(const Whereabout& at, double cap) {
    if (worst_.lower(at) > cap + cap_rounding) return std::nullopt;
    if (auto free = without_cap(at); free && free->plan.worst <= cap + cap_rounding) return free;
    const StateId id = desk_.state(at.set, at.standing);
    if (id >= known_.size()) known_.resize(id + 1);
    for (const Known& known : known_[id])
        if (known.best.plan.worst <= cap + cap_rounding && cap <= known.cap + cap_rounding) return known.best;
    worst_.settle(at, cap + 2 * cap_rounding);
    if (worst_.lower(at) > cap + cap_rounding) return std::nullopt;
    auto found = search(at, cap);
    if (found) known_[id].push_back({cap, *found});
    return found;
}

std::optional<CappedPlan> CappedSearch::without_cap(const Whereabout& at) {
    desk_.settle(at.set, at.standing, Search::infinity);
    if (!desk_.solved(at.set, at.standing)) return std::nullopt;
    const Plan plan = desk_.value(at.set, at.standing);
    return CappedPlan{{plan.minutes * desk_.weight(at.set), plan.worst}, desk_.move(at.set, at.standing)};
}

double CappedSearch::lower(const WorstStep& step) {
    if (step.next.empty()) return step.group_minutes;
    double minutes = step.weighted;
    for (const Whereabout& one : step.next)
        minutes += desk_.lower_bound(one.set, one.standing) * desk_.weight(one.set);
    return minutes;
}

std::optional<CappedPlan> CappedSearch::search(const Whereabout& at, double cap) {
    ++expansions_;
    struct Candidate {
        WorstStep step;
        double lower = 0;
    };
    std::vector<Candidate> candidates;
    for (WorstStep& step : worst_.steps(at)) {
        if (step.lower > cap + cap_rounding) continue;
        const double least = lower(step);
        candidates.push_back({std::move(step), least});
    }
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const Candidate& a, const Candidate& b) { return a.lower < b.lower; });
    std::optional<CappedPlan> found;
    for (const Candidate& candidate : candidates) {
        const double budget = found ? found->plan.minutes : Search::infinity;
        if (candidate.lower >= budget - tie_minutes * desk_.weight(at.set) || exhausted()) break;
        if (const auto plan = value(candidate.step, cap, budget))
            found = CappedPlan{*plan, candidate.step.move};
    }
    return found;
}

// Nothing where it breaks the cap or comes to the budget.
std::optional<Plan> CappedSearch::value(const WorstStep& step, double cap, double budget) {
    if (step.next.empty()) {
        if (step.group_minutes >= budget) return std::nullopt;
        return Plan{step.group_minutes, step.group_worst};
    }
    double total = lower(step);
    Plan whole{step.weighted, step.minutes};
    for (const Whereabout& one : step.next) {
        const double least = desk_.lower_bound(one.set, one.standing) * desk_.weight(one.set);
        const auto rest = best(one, cap - step.minutes);
        if (!rest) return std::nullopt;
        total += rest->plan.minutes - least;
        if (total >= budget) return std::nullopt;
        whole.minutes += rest->plan.minutes;
        whole.worst = std::max(whole.worst, step.minutes + rest->plan.worst);
    }
    return whole;
}

}  // namespace halfsplit::plan
