#include "halfsplit/report/explanation.hpp"

#include "halfsplit/base/documents.hpp"
#include "halfsplit/base/text.hpp"

#include <sstream>

namespace halfsplit::report {

namespace {

// The cells of a table's row; empty where the line is none.
std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells;
    std::size_t at = line.rfind("| ", 0) == 0 ? 2 : std::string::npos;
    while (at != std::string::npos && at < line.size()) {
        const std::size_t end = line.find(" |", at);
        if (end == std::string::npos) break;
        cells.push_back(line.substr(at, end - at));
        at = end + 3;
    }
    return cells;
}

std::string without_ticks(std::string text) {
    std::erase(text, '`');
    return text;
}

// As a sentence: a capital in front, a full stop behind.
std::string sentence_of(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text + '.';
}

std::string indented(const std::string& text, std::size_t columns) {
    return wrap("  " + sentence_of(text), columns, 2) + '\n';
}

}  // namespace

std::vector<Explanation> explanations() {
    std::vector<Explanation> result;
    std::istringstream page{std::string(document_text("findings"))};
    for (std::string line; std::getline(page, line);) {
        const std::vector<std::string> cells = cells_of(line);
        if (cells.size() < 4 || cells.size() > 5 || cells[0].front() != '`') continue;
        Explanation one;
        one.id = without_ticks(cells[0]);
        one.severity = cells[1];
        one.meaning = without_ticks(cells[2]);
        if (cells.size() == 5) one.why = without_ticks(cells[3]);
        one.mend = without_ticks(cells.back());
        one.example = document_text(one.id);
        result.push_back(std::move(one));
    }
    return result;
}

std::string explanation_text(const Explanation& explanation, std::size_t columns) {
    std::string text = explanation.id + " (" + explanation.severity + ")\n";
    text += "\nWhat it says\n" + indented(explanation.meaning, columns);
    if (explanation.of_check()) text += "\nWhy it matters\n" + indented(explanation.why, columns);
    text += "\nHow to mend it\n" + indented(explanation.mend, columns);
    if (explanation.example.empty()) return text;
    text += "\nFor example\n";
    std::istringstream lines(explanation.example);
    for (std::string line; std::getline(lines, line);) text += "  " + line + '\n';
    return text;
}

Finding unknown_id(const std::string& id) {
    std::vector<std::string> known;
    for (const Explanation& explanation : explanations()) known.push_back(explanation.id);
    Finding finding;
    finding.id = "unknown-id";
    finding.message = "no finding has the id \"" + id + '"';
    finding.expected = "an id that docs/reference/findings.md lists";
    finding.nearest = nearest_name(id, known);
    finding.next_step = finding.nearest.empty() ? "write the id as it stands in brackets behind a finding"
                                                : "write the id in full";
    return finding;
}

}  // namespace halfsplit::report
