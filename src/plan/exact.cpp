#include "halfsplit/plan/exact.hpp"

#include "plan/ranking.hpp"

namespace halfsplit::plan {

Solution solve(const Problem& problem, const Limits& limits, std::size_t alternatives) {
    require_sound(problem);
    const Outline outline(problem);
    Ground ground(outline, outline.prior());
    Desk desk(ground, limits.states);
    return rank_all(desk, ground.sets.all(), problem.start, alternatives);
}

}  // namespace halfsplit::plan
