#include "halfsplit/report/draft_report.hpp"

#include "halfsplit/base/text.hpp"

#include <nlohmann/json.hpp>

#include "base/json_out.hpp"

namespace halfsplit::report {

namespace {

std::string noted(const std::string& heading, const std::vector<std::string>& lines, std::size_t columns) {
    std::string text;
    for (const std::string& line : lines) text += wrap("  " + printable(line), columns, 4) + "\n";
    return text.empty() ? text : heading + "\n" + text;
}

nlohmann::json draft_finding_to_json(const Finding& finding) {
    return {{"id", finding.id},
            {"severity", word(finding.severity)},
            {"file", finding.location.file},
            {"line", finding.location.line},
            {"column", finding.location.column},
            {"message", finding.message},
            {"expected", finding.expected},
            {"nearest", finding.nearest},
            {"next_step", finding.next_step}};
}

}  // namespace

std::string draft_notes(const draft::Drafted& drafted, std::size_t columns) {
    return noted("Not said, and taken so:", drafted.assumed, columns) +
           noted("Said, and not carried over:", drafted.left_out, columns);
}

nlohmann::json draft_json(const draft::Drafted& drafted, const std::string& source,
                          const std::string& written) {
    return {{"source", source},
            {"written", written},
            {"findings", listed(drafted.findings, draft_finding_to_json)},
            {"assumed", drafted.assumed},
            {"left_out", drafted.left_out}};
}

}  // namespace halfsplit::report
