// How well the faults of a harness can be told apart, as text and as data. Pure.
#pragma once

#include "halfsplit/advice/survey.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::report {

// Lines of at most `columns` (at least 30), each with its line end. Long lists are cut, and say so.
std::string survey_text(const std::vector<advice::Survey>& networks, std::size_t columns);

// Schema docs/schema/survey.schema.json: nothing is cut. Minutes, bits and shares are rounded to four
// decimals.
nlohmann::json survey_json(const std::string& file, const std::vector<advice::Survey>& networks);

}  // namespace halfsplit::report
