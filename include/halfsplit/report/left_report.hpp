// What is left of a job in progress, as text and as data. Pure.
#pragma once

#include "halfsplit/advice/survey.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>

namespace halfsplit::report {

// Lines of at most `columns` (at least 30), each with its line end.
std::string left_text(const std::string& job, const advice::Left& left, std::size_t columns);

// Schema docs/schema/survey-job.schema.json.
nlohmann::json left_json(const std::string& job, const advice::Left& left);

}  // namespace halfsplit::report
