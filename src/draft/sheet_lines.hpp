// All lines of a sheet, read one after the other.
#pragma once

#include "draft/sheet.hpp"

#include <string_view>
#include <vector>

namespace halfsplit::draft {

// Whether the text is UTF-8; else a finding says where it is not.
bool check_encoding(std::string_view text, Sheet& sheet);

void read_lines(std::string_view text, Sheet& sheet);

// In the order of the sheet, with its lines; what is wrong in a library keeps the lines that it has.
std::vector<Finding> told(std::vector<Finding> findings, std::string_view text, const Sheet& sheet);

}  // namespace halfsplit::draft
