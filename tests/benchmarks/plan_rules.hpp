// What the rules of thumb cost, and what advice's own limits cost, against the least there is.
#pragma once

#include <string>

namespace halfsplit::plan {

// A Markdown table. Ratios of expected minutes to the proven optimum of plans with looks at any time; where a
// problem is not proven, to the certified lower bound, which makes a ratio look worse than it is.
std::string table_of_rules();

}  // namespace halfsplit::plan
