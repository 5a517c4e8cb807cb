#include "halfsplit/report/survey_rows.hpp"

#include <nlohmann/json.hpp>

#include "base/json_out.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace halfsplit::report {

using nlohmann::json;

namespace {

// In the order of the columns.
constexpr std::array<std::string_view, 18> row_columns{
    "file",          "network",           "parts",           "points",        "variants",
    "faults",        "detected",          "isolated_to_one", "largest_group", "ambiguity_groups",
    "unseen_faults", "expected_minutes",  "ninety_minutes",  "worst_minutes", "lower_bound_minutes",
    "proven",        "not_cured_minutes", "problem"};

std::size_t unseen_faults(const advice::Survey& survey) {
    std::size_t count = 0;
    for (const advice::AmbiguityGroup& group : survey.groups) count += group.sound ? group.faults.size() : 0;
    return count;
}

json row_json(const SurveyRow& row) {
    if (!row.survey) return {{"file", row.file}, {"problem", row.problem}};
    const advice::Survey& it = *row.survey;
    json out{{"file", row.file},
             {"network", it.network},
             {"parts", it.parts},
             {"points", it.points},
             {"variants", it.variants.size()},
             {"faults", it.faults},
             {"detected", rounded(it.detected.by_chance)},
             {"isolated_to_one", rounded(it.to_one.by_chance)},
             {"largest_group", it.largest_group},
             {"ambiguity_groups", it.groups.size()},
             {"unseen_faults", unseen_faults(it)}};
    if (it.clip.empty()) return out;
    out["expected_minutes"] = rounded(it.quote.expected_minutes);
    out["ninety_minutes"] = rounded(it.quote.ninety_minutes);
    out["worst_minutes"] = rounded(it.quote.worst_minutes);
    out["lower_bound_minutes"] = rounded(it.quote.lower_bound_minutes);
    out["proven"] = it.quote.proven;
    out["not_cured_minutes"] = rounded(it.not_cured.further_minutes);
    return out;
}

// In quotes where it has to be; a quote inside stands twice.
std::string csv_cell(const json& value) {
    if (!value.is_string()) return value.dump();
    const std::string& text = value.get_ref<const std::string&>();
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

}  // namespace

std::string survey_rows_csv(const std::vector<SurveyRow>& rows) {
    std::string text;
    for (std::size_t i = 0; i < row_columns.size(); ++i)
        text += (i > 0 ? "," : "") + std::string(row_columns[i]);
    text += '\n';
    for (const SurveyRow& row : rows) {
        const json values = row_json(row);
        for (std::size_t i = 0; i < row_columns.size(); ++i) {
            if (i > 0) text += ',';
            const auto value = values.find(std::string(row_columns[i]));
            if (value != values.end()) text += csv_cell(*value);
        }
        text += '\n';
    }
    return text;
}

json survey_rows_json(const std::vector<SurveyRow>& rows) {
    return {{"rows", listed(rows, row_json)}};
}

}  // namespace halfsplit::report
