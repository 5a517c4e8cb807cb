// Many harnesses side by side: one row for each network of each file. Pure.
#pragma once

#include "halfsplit/advice/survey.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <vector>

namespace halfsplit::report {

struct SurveyRow {
    std::string file;
    std::optional<advice::Survey> survey;
    std::string problem;  // why there is none
};

// Comma-separated values (RFC 4180, but for lines that end with a line feed alone), the names of the columns
// first. Minutes and shares have four decimals at most.
std::string survey_rows_csv(const std::vector<SurveyRow>& rows);

// Schema docs/schema/survey-rows.schema.json.
nlohmann::json survey_rows_json(const std::vector<SurveyRow>& rows);

}  // namespace halfsplit::report
