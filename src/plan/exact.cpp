#include "halfsplit/plan/exact.hpp"

#include "plan/root.hpp"

namespace halfsplit::plan {

Solution solve(const Problem& problem, const Limits& limits, std::size_t alternatives) {
    require_sound(problem);
    const Outline outline(problem);
    Desk desk(outline, outline.prior(), limits.states);
    return as_solution(desk.rank(desk.sets().all(), problem.start, alternatives), desk);
}

}  // namespace halfsplit::plan
