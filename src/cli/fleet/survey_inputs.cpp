#include "cli/fleet/survey_inputs.hpp"

#include "halfsplit/advice/survey.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/report/survey_rows.hpp"

#include <nlohmann/json.hpp>

#include "base/file_failure.hpp"
#include "base/parallel.hpp"
#include "cli/fleet/gather.hpp"
#include "cli/put_json.hpp"

#include <algorithm>
#include <ostream>
#include <utility>

namespace halfsplit::cli {

namespace {

struct Surveyed {
    std::vector<report::SurveyRow> rows;
    bool readable = true, usable = true, passed_over = false;
};

Surveyed reason_row(const std::string& file, const std::vector<Finding>& findings, bool readable) {
    Surveyed result;
    result.readable = readable;
    result.usable = false;
    const auto error = std::find_if(findings.begin(), findings.end(), [](const Finding& finding) {
        return finding.severity == Severity::Error;
    });
    report::SurveyRow row;
    row.file = file;
    row.problem = error == findings.end() ? "nothing" : error->message + " [" + error->id + ']';
    if (error != findings.end() && error->location.line > 0)
        row.problem = "line " + std::to_string(error->location.line) + ": " + row.problem;
    result.rows.push_back(std::move(row));
    return result;
}

Surveyed survey_networks(const harness::Harness& harness, const std::string& name, const ManySurveys& asked) {
    Surveyed result;
    for (harness::Index network = 0; network < harness.networks.size(); ++network) {
        if (!asked.network.empty() && harness.networks[network].id != asked.network) continue;
        report::SurveyRow row;
        row.file = name;
        row.survey = advice::survey(harness, network, asked.aim);
        row.survey->network = harness.networks[network].id;
        result.rows.push_back(std::move(row));
    }
    if (!result.rows.empty()) return result;
    Finding finding;
    finding.id = "unknown-network";
    finding.message = "there is no network '" + asked.network + "' in this file";
    return reason_row(name, {finding}, true);
}

Surveyed survey_one(const Input& input, const ManySurveys& asked, Context& context) {
    const std::string name = shown_name(input.path);
    if (input.trouble) return reason_row(name, {*input.trouble}, false);
    std::string text;
    try {
        text = read_input(context.files, input.path, harness::largest_file);
    } catch (const FileError& error) {
        return reason_row(name, {about_failure(error, context.files, name, "harness", harness::largest_file)},
                          false);
    }
    const auto read = harness::read_harness_text(context.files, text, name, nullptr, context.include);
    if (read.harness) return survey_networks(*read.harness, name, asked);
    Surveyed result = reason_row(name, read.findings, true);
    result.passed_over = input.folder != no_folder && read.findings.front().id == "other-format";
    return result;
}

}  // namespace

int survey_many(const ManySurveys& asked, Context& context) {
    const Gathered gathered = gather(context.files, asked.paths, {});
    std::vector<Surveyed> surveyed(gathered.inputs.size());
    for_each_index(surveyed.size(), asked.threads, [&](std::size_t index) {
        surveyed[index] = survey_one(gathered.inputs[index], asked, context);
    });
    std::vector<report::SurveyRow> rows;
    int code = Exit::fine;
    for (Surveyed& one : surveyed) {
        if (one.passed_over) continue;
        if (!one.readable) code = Exit::unusable;
        if (!one.usable) code = std::max<int>(code, Exit::findings);
        for (report::SurveyRow& row : one.rows) rows.push_back(std::move(row));
    }
    if (asked.format == "csv") {
        context.out << report::survey_rows_csv(rows);
    } else {
        put_json(context.out, report::survey_rows_json(rows));
    }
    return code;
}

}  // namespace halfsplit::cli
