#include "draft/sheet_lines.hpp"

#include "halfsplit/base/text.hpp"

#include "draft/things.hpp"

#include <algorithm>

namespace halfsplit::draft {

namespace {

// A line that begins with a comma goes on with words for the thing of the line above.
void name_last_thing(const Word& text, Sheet& sheet) {
    const Thing* thing = sheet.document.find(sheet.last_thing);
    if (thing != nullptr) return give_names(text, Thing(*thing), sheet);
    sheet.error(
        "sheet-missing", text.at,
        {"words behind a comma, and nothing that they are about",
         "a thing in front of the comma, or in the line above", "", "write what it is, or delete the line"});
}

void read_line(std::string_view text, std::size_t number, Sheet& sheet) {
    const SheetLine line = split_line(text, number);
    if (line.words.empty()) {
        if (line.text) name_last_thing(*line.text, sheet);
        return;
    }
    if (line.words.front().text.front() == '#') return;
    if (read_surroundings_line(line, sheet) || read_bus_line(line, sheet) || read_extra_line(line, sheet))
        return;
    read_hop_line(line, sheet);
}

}  // namespace

bool check_encoding(std::string_view text, Sheet& sheet) {
    const std::size_t bad = find_invalid_utf8(text);
    if (bad == std::string_view::npos) return true;
    const std::string_view before = text.substr(0, bad);
    const auto line = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n')) + 1;
    sheet.error("sheet-encoding", {line, 1},
                {"a byte that is not UTF-8", "", "", "save the file with the encoding UTF-8"});
    return false;
}

void read_lines(std::string_view text, Sheet& sheet) {
    if (text.rfind("\xEF\xBB\xBF", 0) == 0) text.remove_prefix(3);
    std::size_t number = 0;
    for (std::size_t start = 0; start < text.size();) {
        const std::size_t end = std::min(text.find('\n', start), text.size());
        read_line(text.substr(start, end - start), ++number, sheet);
        start = end + 1;
    }
}

std::vector<Finding> told(std::vector<Finding> findings, std::string_view text, const Sheet& sheet) {
    const auto middle = std::stable_partition(findings.begin(), findings.end(), [&](const Finding& finding) {
        return finding.location.file == sheet.file;
    });
    std::vector<Finding> own(findings.begin(), middle);
    std::stable_sort(own.begin(), own.end(), [](const Finding& a, const Finding& b) {
        return std::pair(a.location.line, a.location.column) < std::pair(b.location.line, b.location.column);
    });
    SheetOrigins(text, sheet.file, sheet.document.places()).quote(own);
    own.insert(own.end(), middle, findings.end());
    return own;
}

}  // namespace halfsplit::draft
