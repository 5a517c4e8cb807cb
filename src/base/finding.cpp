#include "halfsplit/base/finding.hpp"

#include "halfsplit/base/text.hpp"

#include <algorithm>
#include <utility>

namespace halfsplit {

namespace {

std::string place(const Location& location) {
    std::string text = printable(location.file);
    if (location.line > 0) {
        text += ':' + std::to_string(location.line) + ':' + std::to_string(location.column);
    }
    return text;
}

// The line without its indentation, moved to two spaces, and the caret under its column.
std::string quoted(const Finding& finding) {
    const std::string line = printable(finding.source_line);
    const std::size_t column = finding.caret > 0 ? finding.caret : finding.location.column;
    std::size_t lead = line.find_first_not_of(' ');
    if (lead == std::string::npos) lead = 0;
    if (column > 0) lead = std::min(lead, column - 1);
    std::string text = "\n  " + line.substr(lead);
    if (column > 0) text += "\n  " + std::string(column - 1 - lead, ' ') + '^';
    return text;
}

std::string sentence(std::string_view label, const std::string& words) {
    std::string text = "\n  " + std::string(label) + ": " + printable(words);
    if (text.back() != '.' && text.back() != '?') text += '.';
    return text;
}

}  // namespace

std::string_view word(Severity severity) {
    switch (severity) {
        case Severity::Note:
            return "note";
        case Severity::Warning:
            return "warning";
        default:
            return "error";
    }
}

Mend replace_by(std::string text) {
    if (text.empty()) return {};
    return {Mend::Kind::Replace, std::move(text)};
}

Mend replace_by_name(const std::string& name) {
    return replace_by(name.empty() ? name : '"' + name + '"');
}

std::string to_text(const Finding& finding) {
    std::string text = place(finding.location);
    if (!text.empty()) text += ": ";
    text += std::string(word(finding.severity)) + ": ";
    text += printable(finding.message) + " [" + finding.id + ']';
    if (!finding.source_line.empty() && finding.location.line > 0) text += quoted(finding);
    if (!finding.expected.empty()) text += sentence("Expected", finding.expected);
    if (!finding.nearest.empty()) text += sentence("Nearest known name", '"' + finding.nearest + '"');
    if (!finding.next_step.empty()) text += sentence("Next", finding.next_step);
    return text;
}

std::string to_text(const std::vector<Finding>& findings) {
    std::string all;
    for (const Finding& finding : findings) {
        if (!all.empty()) all += '\n';
        all += to_text(finding);
    }
    return all;
}

bool any_error(const std::vector<Finding>& findings) {
    return std::any_of(findings.begin(), findings.end(),
                       [](const Finding& finding) { return finding.severity == Severity::Error; });
}

InputError::InputError(std::vector<Finding> findings)
    : std::runtime_error(to_text(findings)), findings_(std::move(findings)) {}

InputError::InputError(Finding finding) : InputError(std::vector<Finding>{std::move(finding)}) {}

}  // namespace halfsplit
