#include "halfsplit/plan/rules.hpp"

#include "plan/rollout.hpp"

namespace halfsplit::plan {

Choice follow(const Problem& problem, Rule rule) {
    require_sound(problem);
    const Outline outline(problem);
    Ground ground(outline, outline.prior());
    Desk desk(ground, {.states = 0});
    if (rule == Rule::Rollout) return Rollout(desk).follow(ground.sets.all(), problem.start);
    return desk.follow(ground.sets.all(), problem.start, rule);
}

}  // namespace halfsplit::plan
