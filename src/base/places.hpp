// From offsets in a text to lines and columns.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

// One for each offset, in that order. One pass over the text.
std::vector<Location> locations(std::string_view text, const std::vector<std::size_t>& offsets,
                                const std::string& file_name);

}  // namespace halfsplit
