// "use minibus": places and covers of a library, by name.
#include "halfsplit/base/file_error.hpp"

#include <fmt/format.h>

#include "base/paths.hpp"
#include "draft/sheet.hpp"
#include "harness/assembled.hpp"

namespace halfsplit::draft {

namespace {

// "minibus" is minibus.json in the folder library beside the sheet, or beside the sheet.
std::string path_of(const Word& name, Sheet& sheet) {
    if (name.text.find('.') != std::string::npos) return name.text;
    const std::string file = name.text + ".json";
    const bool beside = sheet.files.exists(folder_part(sheet.file) + file) &&
                        !sheet.files.exists(folder_part(sheet.file) + "library/" + file);
    return beside ? file : "library/" + file;
}

void lend(const nlohmann::json& entries, Names& names) {
    names.open = false;
    if (!entries.is_array()) return;
    for (const nlohmann::json& entry : entries) {
        const std::string id = entry.value("id", "");
        if (names.lent.insert(id).second) names.ids.push_back(id);
    }
}

}  // namespace

void read_library(const Word& name, Sheet& sheet) {
    const std::string path = path_of(name, sheet);
    const Json stub{{"include", {path}}};
    try {
        const harness::Assembled library(stub.dump(), sheet.file, &sheet.files, sheet.include);
        lend(library.document()["places"], sheet.places);
        lend(library.document()["covers"], sheet.covers);
        Json& include = sheet.document.head()["include"];
        sheet.document.place(fmt::format("/include/{}", include.size()), name.at);
        for (const char* list : {"/places", "/covers", "/travel"}) sheet.document.place(list, name.at);
        include.push_back(path);
    } catch (const InputError& error) {
        Finding finding = error.findings().front();
        if (finding.location.file != sheet.file) {  // in the library itself, with its line
            sheet.findings.push_back(std::move(finding));
            return;
        }
        sheet.error("sheet-library", name.at,
                    {fmt::format("the library \"{}\" cannot be used: {}", name.text, finding.message),
                     "the name of a file in the folder library beside the sheet, or its path", "",
                     finding.next_step});
    }
}

}  // namespace halfsplit::draft
