#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/wire_sheet.hpp"
#include "halfsplit/harness/read.hpp"

#include "draft/layout.hpp"
#include "draft/sheet.hpp"
#include "draft/sheet_lines.hpp"
#include "draft/sheet_terms.hpp"
#include "harness/assembled.hpp"

#include <algorithm>

namespace halfsplit::draft {

namespace {

// Included entries stand in front of the sheet's own: the places of those move on by so many.
std::map<std::string, At> moved_places(const Sheet& sheet, const Json& own, const nlohmann::json& whole) {
    std::map<std::string, At> places;
    for (const auto& [pointer, at] : sheet.document.places()) {
        std::string moved = pointer;
        for (const char* list : {"places", "covers"}) {
            const std::string start = std::string("/") + list + "/";
            if (pointer.rfind(start, 0) != 0 || !own.contains(list)) continue;
            const std::size_t end = std::min(pointer.find('/', start.size()), pointer.size());
            const std::size_t index = std::stoul(pointer.substr(start.size(), end - start.size()));
            moved =
                start + std::to_string(index + whole[list].size() - own[list].size()) + pointer.substr(end);
        }
        places[moved] = at;
    }
    return places;
}

// The harness is read and checked as any other; what is found is told in the sheet's terms and places.
void check_made(std::string_view text, Sheet& sheet, const DraftRules& rules, Drafted& drafted) {
    const Json own = sheet.document.whole();
    const std::string json = laid_out(own);
    try {
        const harness::Assembled assembled(json, sheet.file, &sheet.files, rules.include);
        const auto places = moved_places(sheet, own, assembled.document());
        const SheetOrigins origins(text, sheet.file, places);
        harness::ReadResult read = harness::read_document(assembled.document(), origins);
        drafted.findings = in_sheet_terms(std::move(read.findings));
        if (!read.harness) return;
        drafted.json = rules.whole && assembled.includes_any()
                           ? laid_out(Document::in_order(Json::parse(assembled.document().dump())))
                           : json;
    } catch (const InputError& error) {  // a library that went away since it was read
        std::vector<Finding> findings = error.findings();
        const auto& known = sheet.document.places();
        const auto use = known.find("/include/0");
        for (Finding& finding : findings) {
            if (finding.location.file != sheet.file || use == known.end()) continue;
            finding.location = {sheet.file, use->second.line, use->second.column};
        }
        drafted.findings = told(std::move(findings), text, sheet);
    }
}

}  // namespace

Drafted draft_sheet(std::string_view text, const std::string& file_name, Files& files,
                    const DraftRules& rules) {
    Drafted drafted;
    Sheet sheet(file_name, files, rules.include);
    if (!check_encoding(text, sheet)) {
        drafted.findings = std::move(sheet.findings);
        return drafted;
    }
    read_lines(text, sheet);
    if (sheet.buses.empty() && !sheet.failed()) {
        sheet.error("sheet-missing", {},
                    {"no bus in this sheet", "a line such as: bus body 500k BODY-H BODY-L", "", "add it"});
    }
    if (!sheet.failed()) drafted.assumed = take_usual_values(sheet);
    if (sheet.failed()) {
        drafted.findings = told(std::move(sheet.findings), text, sheet);
        return drafted;
    }
    check_made(text, sheet, rules, drafted);
    return drafted;
}

}  // namespace halfsplit::draft
