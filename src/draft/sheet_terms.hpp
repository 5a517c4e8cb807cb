// Findings of the harness that a sheet makes, in words that fit a sheet: nobody sees the members of a file.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <vector>

namespace halfsplit::draft {

std::vector<Finding> in_sheet_terms(std::vector<Finding> findings);

}  // namespace halfsplit::draft
