// Rows of data as comma-separated values (RFC 4180, but for lines that end with a line feed alone).
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::report {

// The names of the columns first; a member that a row does not have is an empty cell.
std::string csv_rows(const std::vector<std::string_view>& columns, const std::vector<nlohmann::json>& rows);

}  // namespace halfsplit::report
