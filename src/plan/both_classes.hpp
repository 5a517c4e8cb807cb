// How the two classes of plans go together: the narrower one is searched first, and its best plan is what
// looks at any time have to beat.
#pragma once

#include "halfsplit/plan/exact.hpp"

namespace halfsplit::plan {

Limits for_looks_at_any_time(const Limits& limits);

// Of the best plan where looks come last: what is known of looks at any time. With a bound that reaches it,
// it is the best of those as well.
void take_bound_of_any_time(Solution& last, double bound);

}  // namespace halfsplit::plan
