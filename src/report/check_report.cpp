#include "halfsplit/report/check_report.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace halfsplit::report {

using nlohmann::json;

namespace {

struct Count {
    std::size_t errors = 0, warnings = 0, with_errors = 0, unreadable = 0;
};

Count count(const std::vector<CheckedFile>& files) {
    Count result;
    for (const CheckedFile& file : files) {
        std::size_t errors = 0;
        for (const Finding& finding : file.findings) {
            ++(finding.severity == Severity::Error ? errors : result.warnings);
        }
        result.errors += errors;
        if (errors > 0) ++result.with_errors;
        if (!file.readable) ++result.unreadable;
    }
    return result;
}

json to_json(const Finding& finding) {
    return {{"id", finding.id},
            {"severity", finding.severity == Severity::Error ? "error" : "warning"},
            {"file", finding.location.file},
            {"line", finding.location.line},
            {"column", finding.location.column},
            {"message", finding.message},
            {"expected", finding.expected},
            {"nearest", finding.nearest},
            {"next_step", finding.next_step}};
}

}  // namespace

std::string check_text(const std::vector<CheckedFile>& files) {
    std::string text;
    for (const CheckedFile& file : files) {
        for (const Finding& finding : file.findings) text += to_text(finding) + "\n\n";
        if (file.findings.empty()) {
            text += fmt::format("{}: sound: {}, {}, {}\n", file.file, counted(file.networks, "network"),
                                counted(file.parts, "part"), counted(file.points, "probe point"));
        }
    }
    const Count total = count(files);
    text += fmt::format("{}, {} with errors: {}, {}\n", counted(files.size(), "file"), total.with_errors,
                        counted(total.errors, "error"), counted(total.warnings, "warning"));
    return text;
}

json check_json(const std::vector<CheckedFile>& files) {
    json list = json::array();
    for (const CheckedFile& file : files) {
        json findings = json::array();
        for (const Finding& finding : file.findings) findings.push_back(to_json(finding));
        list.push_back({{"file", file.file},
                        {"readable", file.readable},
                        {"networks", file.networks},
                        {"parts", file.parts},
                        {"points", file.points},
                        {"findings", std::move(findings)}});
    }
    const Count total = count(files);
    return {{"files", std::move(list)},
            {"summary",
             {{"files", files.size()},
              {"with_errors", total.with_errors},
              {"unreadable", total.unreadable},
              {"errors", total.errors},
              {"warnings", total.warnings}}}};
}

}  // namespace halfsplit::report
