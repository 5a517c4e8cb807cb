// Laying the elements of a group bare one after another until the faulty one is seen: in which order.
#pragma once

#include "plan/model.hpp"

#include <cstdint>
#include <vector>

namespace halfsplit::plan {

struct Member {
    std::uint32_t element = 0;  // of the outline
    double weight = 0;
};

struct Order {
    std::vector<std::uint32_t> elements;
    double minutes = 0;  // expected, times the weight of the group
    double worst = 0;    // minutes until the last is laid bare
    double least =
        0;  // at most the minutes of the best order; equals `minutes` when the order is known to be best
};

// At most the weighted minutes of any order: each member reached as if it were the first, plus the needless
// looks. Sorts; otherwise linear.
double quick_bound_of_laying_bare(const Model& model, const std::vector<Member>& group,
                                  const access::Standing& standing);
// The same from the group as jobs that wait for one another (tree_order.hpp): needless covers and walks
// counted too. Not always the higher of the two. Quadratic.
double bound_of_laying_bare(const Model& model, const std::vector<Member>& group,
                            const access::Standing& standing);

// The best order for up to exact_group members (every subset is looked at, save where one member is plainly
// before another). For more, the better of two: the best order of the jobs, which is best indeed unless it
// walks to and fro, and by probability per minute, covers and walks counted. Quadratic then.
Order order_to_lay_bare(const Model& model, const std::vector<Member>& group,
                        const access::Standing& standing);

}  // namespace halfsplit::plan
