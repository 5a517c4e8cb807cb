// A plan beside rules of thumb, as text and as data. Pure.
#pragma once

#include "halfsplit/plan/rules.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::report {

// To stand below a survey: lines of at most `columns` (at least 30), the first empty, each with its line end;
// nothing for no rules. `of` names the bus; empty where it is plain.
std::string rules_text(std::string_view of, const std::vector<plan::ByRule>& rules, std::size_t columns);

// Member "rules" of the survey schemas. Minutes are rounded to four decimals.
nlohmann::json rules_json(const std::vector<plan::ByRule>& rules);

}  // namespace halfsplit::report
