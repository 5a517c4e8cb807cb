#include "halfsplit/report/survey_rows.hpp"

#include <nlohmann/json.hpp>

#include "base/json_out.hpp"
#include "report/csv_rows.hpp"

#include <algorithm>
#include <string_view>

namespace halfsplit::report {

using nlohmann::json;

namespace {

// In the order of the columns.
const std::vector<std::string_view> row_columns{
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

}  // namespace

std::string survey_rows_csv(const std::vector<SurveyRow>& rows) {
    std::vector<json> values;
    values.reserve(rows.size());
    for (const SurveyRow& row : rows) values.push_back(row_json(row));
    return csv_rows(row_columns, values);
}

json survey_rows_json(const std::vector<SurveyRow>& rows) {
    return {{"rows", listed(rows, row_json)}};
}

}  // namespace halfsplit::report
