#include "halfsplit/plan/rules.hpp"

#include "plan/rollout.hpp"

#include <algorithm>
#include <utility>

namespace halfsplit::plan {

Choice follow(const Problem& problem, Rule rule) {
    require_sound(problem);
    const Outline outline(problem);
    Ground ground(outline, outline.prior());
    Desk desk(ground, {.states = 0});
    if (rule == Rule::Rollout) return Rollout(desk).follow(ground.sets.all(), problem.start);
    return desk.follow(ground.sets.all(), problem.start, rule);
}

std::vector<ByRule> beside_rules(const Problem& problem, const Choice& plan) {
    const std::vector<std::pair<std::string, Rule>> rules{
        {"walk", Rule::Walk},
        {"half-by-count", Rule::HalfByCount},
        {"half-by-probability", Rule::HalfByProbability},
        {"information-per-minute", Rule::InformationPerMinute}};
    std::vector<ByRule> all{{"plan", plan.expected_minutes, plan.worst_minutes}};
    for (const auto& [name, rule] : rules) {
        const Choice choice = follow(problem, rule);
        all.push_back({name, choice.expected_minutes, choice.worst_minutes});
    }
    std::stable_sort(all.begin() + 1, all.end(), [](const ByRule& a, const ByRule& b) {
        return a.expected_minutes > b.expected_minutes;
    });
    return all;
}

}  // namespace halfsplit::plan
