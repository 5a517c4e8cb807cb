#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/wire_sheet.hpp"
#include "halfsplit/harness/read.hpp"

#include "draft/layout.hpp"
#include "draft/sheet.hpp"
#include "draft/sheet_terms.hpp"
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

void read_lines(std::string_view text, Sheet& sheet) {
    if (text.rfind("\xEF\xBB\xBF", 0) == 0) text.remove_prefix(3);
    std::size_t number = 0;
    for (std::size_t start = 0; start < text.size();) {
        const std::size_t end = std::min(text.find('\n', start), text.size());
        read_line(text.substr(start, end - start), ++number, sheet);
        start = end + 1;
    }
    if (sheet.buses.empty() && !sheet.failed()) {
        sheet.error("sheet-missing", {},
                    {"no bus in this sheet", "a line such as: bus body 500k BODY-H BODY-L", "", "add it"});
    }
}

void put_in_order(std::vector<Finding>& findings) {
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        return std::pair(a.location.line, a.location.column) < std::pair(b.location.line, b.location.column);
    });
}

}  // namespace

Drafted draft_sheet(std::string_view text, const std::string& file_name, Files& files) {
    Drafted drafted;
    Sheet sheet(file_name, files);
    if (const std::size_t bad = find_invalid_utf8(text); bad != std::string_view::npos) {
        const std::string_view before = text.substr(0, bad);
        const auto line = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n')) + 1;
        sheet.error("sheet-encoding", {line, 1},
                    {"a byte that is not UTF-8", "", "", "save the file with the encoding UTF-8"});
        drafted.findings = std::move(sheet.findings);
        return drafted;
    }
    read_lines(text, sheet);
    const SheetOrigins origins(text, file_name, sheet.document.places());
    if (sheet.failed()) {
        drafted.findings = std::move(sheet.findings);
        put_in_order(drafted.findings);
        origins.quote(drafted.findings);
        return drafted;
    }
    drafted.assumed = take_usual_values(sheet);
    const Json whole = sheet.document.whole();
    const std::string json = laid_out(whole);
    harness::ReadResult read = harness::read_document(nlohmann::json::parse(json), origins);
    drafted.findings = in_sheet_terms(std::move(read.findings));
    if (read.harness) drafted.json = json;
    return drafted;
}

}  // namespace halfsplit::draft
