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
    double least = 0;    // at most the minutes of the best order; equals `minutes` when the order is known to be best
};

// At most the weighted minutes of any order. Linear but for a sort.
double least_minutes_to_lay_bare(const Model& model, const std::vector<Member>& group, const access::Standing& standing);

// The best order for up to exact_group members (every subset is looked at, save where one member is plainly before
// another); for more a good one: again and again the pocket, and as many of its members, with the most probability per
// minute. Quadratic then.
Order order_to_lay_bare(const Model& model, const std::vector<Member>& group, const access::Standing& standing);

}  // namespace halfsplit::plan
