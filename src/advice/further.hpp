// What a further fault takes, once the first was found and mended and the bus is not cured.
#pragma once

#include "halfsplit/advice/quote.hpp"
#include "halfsplit/harness/harness.hpp"

#include "advice/problem.hpp"

namespace halfsplit::advice {

// The mean over the likeliest first finds. Each hunt goes on from where the plan has the first part found,
// with the covers off that are then, and knows no more than that this part is mended: what was read before it
// would spare some of it, so that the minutes err high. A plan for each of them: cost as of so many advices.
NotCured not_cured(const harness::Harness& harness, const Posed& posed);

}  // namespace halfsplit::advice
