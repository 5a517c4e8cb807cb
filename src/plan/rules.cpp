#include "halfsplit/plan/rules.hpp"

#include "plan/root.hpp"

namespace halfsplit::plan {

Choice follow(const Problem& problem, Rule rule) {
    require_sound(problem);
    const Outline outline(problem);
    Desk desk(outline, outline.prior(), 0);
    return desk.follow(desk.sets().all(), problem.start, rule);
}

}  // namespace halfsplit::plan
