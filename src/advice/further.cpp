#include "advice/further.hpp"

#include "halfsplit/plan/policy.hpp"

#include <algorithm>
#include <map>
#include <vector>

namespace halfsplit::advice {

using harness::none;

namespace {

// So many first finds are gone on from, the likeliest.
constexpr std::size_t most_finds = 4;
// A figure beside the plan is worth less work than the plan.
constexpr plan::Limits further_limits{2'000, plan::Looks::AnyTime, 500};

struct Find {
    std::size_t element = 0;
    double chance = 0;
    access::Standing standing;
};

// Where the plan finds each element first; the likeliest way to it.
class Finds {
  public:
    Finds(const plan::Policy& policy, const plan::Problem& problem) : policy_(policy), problem_(problem) {
        if (!policy.steps.empty()) walk(0, problem.start);
    }

    std::vector<Find> likeliest() const {
        std::vector<Find> result;
        for (const auto& [element, find] : finds_) result.push_back(find);
        std::stable_sort(result.begin(), result.end(),
                         [](const Find& a, const Find& b) { return a.chance > b.chance; });
        result.resize(std::min(result.size(), most_finds));
        return result;
    }

  private:
    void walk(std::size_t at, const access::Standing& from) {
        const plan::PolicyStep& step = policy_.steps[at];
        const bool look = step.step == plan::Step::LayBare;
        const access::Site& site = look ? problem_.bare[step.index] : problem_.tests[step.index].site;
        const access::Standing then{site.place, from.off | problem_.workshop.closure(site.need)};
        for (const plan::PolicyStep::Branch& branch : step.branches) {
            if (look && branch.outcome != 1)
                take({step.index, branch.chance, then});
            else if (branch.next != plan::Policy::over)
                walk(branch.next, then);
        }
    }

    void take(const Find& find) {
        Find& own = finds_[find.element];
        if (own.chance < find.chance) own = find;
    }

    const plan::Policy& policy_;
    const plan::Problem& problem_;
    std::map<std::size_t, Find> finds_;
};

// Without that element, and knowing that something is wrong that can be found.
bool go_on_without(const Find& find, const Posed& posed, plan::Problem& problem) {
    problem.start = find.standing;
    double left = 0;
    for (plan::Hypothesis& own : problem.hypotheses) {
        const bool sound = posed.part_of_element[own.element] == none;
        if (own.element == find.element || sound) own.probability = 0;
        left += own.probability;
    }
    return left > 0;
}

}  // namespace

NotCured not_cured(const harness::Harness& harness, const Posed& posed) {
    NotCured result{harness.assumptions.repair_fails, harness.assumptions.second_fault, 0};
    const plan::Policy policy = plan::policy(posed.problem, further_limits);
    double chance = 0;
    for (const Find& find : Finds(policy, posed.problem).likeliest()) {
        plan::Problem problem = posed.problem;
        if (posed.part_of_element[find.element] == none || !go_on_without(find, posed, problem)) continue;
        result.further_minutes += find.chance * plan::solve(problem, further_limits).best.expected_minutes;
        chance += find.chance;
    }
    if (chance > 0) result.further_minutes /= chance;
    return result;
}

}  // namespace halfsplit::advice
