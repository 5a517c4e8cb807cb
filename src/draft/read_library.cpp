// Places, covers and ways of a library file, as if they stood in the sheet.
#include "halfsplit/base/json_text.hpp"
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/sheet.hpp"

namespace halfsplit::draft {

namespace {

constexpr std::uint64_t largest_library = 4ULL << 20U;

std::string folder_of(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    return slash == std::string::npos ? "" : path.substr(0, slash + 1);
}

// "minibus" is minibus.json beside the sheet, or in the folder library there.
std::string path_of(const Word& name, Sheet& sheet) {
    std::string file = name.text;
    if (file.find('.') == std::string::npos) file += ".json";
    if (file.front() == '/') return file;
    const std::string folder = folder_of(sheet.file);
    return sheet.files.exists(folder + "library/" + file) ? folder + "library/" + file : folder + file;
}

void take_list(const char* list, const nlohmann::json& library, Names& names, const At& at, Sheet& sheet) {
    if (!library.contains(list) || !library[list].is_array()) return;
    names.open = false;
    for (const nlohmann::json& entry : library[list]) {
        if (!entry.is_object() || !entry.contains("id") || !entry["id"].is_string()) continue;
        names.ids.push_back(entry["id"].get<std::string>());
        Json ordered{{"id", entry["id"]}};
        for (const char* member : {"name", "off_minutes", "on_minutes", "under", "cautions"}) {
            if (entry.contains(member)) ordered[member] = Json::parse(entry[member].dump());
        }
        sheet.document.append(list, std::move(ordered), at);
    }
}

}  // namespace

void read_library(const Word& name, Sheet& sheet) {
    const std::string path = path_of(name, sheet);
    try {
        const nlohmann::json library = parse_json(sheet.files.read(path, largest_library), path);
        if (library.value("format", "") != "halfsplit-library") {
            sheet.error("sheet-library", name.at,
                        {path + " is no library", "a file of the format halfsplit-library", "",
                         "name a library, or say places and covers in the sheet"});
            return;
        }
        take_list("places", library, sheet.places, name.at, sheet);
        take_list("covers", library, sheet.covers, name.at, sheet);
        if (library.contains("travel")) {
            const nlohmann::json& travel = library["travel"];
            Json ordered = Json::object();
            if (travel.contains("default_minutes")) ordered["default_minutes"] = travel["default_minutes"];
            for (const nlohmann::json& pair : travel.value("pairs", nlohmann::json::array())) {
                ordered["pairs"].push_back(
                    {{"between", Json::parse(pair.value("between", nlohmann::json()).dump())},
                     {"minutes", pair.value("minutes", nlohmann::json())}});
            }
            sheet.document.head()["travel"] = std::move(ordered);
        }
    } catch (const FileError& error) {
        sheet.error("sheet-library", name.at,
                    {fmt::format("the library \"{}\" cannot be read: {}", name.text, error.what()),
                     "a file beside the sheet or in the folder library there", "", "correct the name"});
    } catch (const std::exception& error) {
        sheet.error("sheet-library", name.at,
                    {fmt::format("the library \"{}\" is not sound: {}", name.text, error.what()), "", "",
                     "mend the library: halfsplit check " + path});
    }
}

}  // namespace halfsplit::draft
