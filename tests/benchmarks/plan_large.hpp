// What is known of plans beyond proof: the plan, what no plan can take less than, and what both cost to find.
#pragma once

#include <string>

namespace halfsplit::plan {

// Markdown. Chains of one line; half a minute, and half a gigabyte at most.
std::string table_of_large();

}  // namespace halfsplit::plan
