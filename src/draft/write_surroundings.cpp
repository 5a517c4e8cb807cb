// What stands before the first bus of a sheet, from a harness file; and words that lines have in common.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/writing.hpp"

#include <algorithm>

namespace halfsplit::draft {

namespace {

bool one_word(const std::string& text) {
    return !text.empty() && text.find_first_of(" \t\n,") == std::string::npos && !read_minutes(text) &&
           lower(text) != "under";
}

// One-word cautions on the line; longer ones on lines of their own.
std::string cautions_text(const Json& entry, const char* kind, std::string& later) {
    std::string words;
    for (const Json& caution : entry.value("cautions", Json::array())) {
        const std::string text = caution;
        if (one_word(text)) {
            words += " " + text;
        } else {
            later += fmt::format("caution {} {}, {}\n", kind, entry.value("id", ""), one_line(text));
        }
    }
    return words;
}

std::string named(const Json& entry) {
    return entry.contains("name") ? ", " + one_line(entry["name"]) : "";
}

std::string covers_text(const Json& file) {
    std::string text, later;
    for (const Json& cover : file.value("covers", Json::array())) {
        text += fmt::format("cover {} {}/{}'", cover.value("id", ""),
                            short_number(cover.value("off_minutes", 0.0)),
                            short_number(cover.value("on_minutes", 0.0)));
        if (cover.contains("under") && !cover["under"].empty())
            text += " under " + join(cover["under"].get<std::vector<std::string>>(), "/");
        text += cautions_text(cover, "cover", later) + named(cover) + "\n";
    }
    return text + later;
}

std::string places_text(const Json& file) {
    std::string text, later;
    for (const Json& place : file.value("places", Json::array())) {
        text += "place " + place.value("id", "") + cautions_text(place, "place", later) + named(place) + "\n";
    }
    if (file.contains("start")) later += "start " + file["start"].get<std::string>() + "\n";
    return text + later;
}

std::string travel_text(const Json& file) {
    if (!file.contains("travel")) return "";
    const Json& travel = file["travel"];
    std::string text;
    if (travel.contains("default_minutes"))
        text += "travel " + short_number(travel["default_minutes"]) + "\n";
    std::string line;
    for (const Json& pair : travel.value("pairs", Json::array())) {
        const std::string one =
            fmt::format("{} {} {}", pair["between"][0].get<std::string>(),
                        pair["between"][1].get<std::string>(), short_number(pair["minutes"]));
        if (!line.empty() && line.size() + one.size() > 64) {
            text += "travel " + line + "\n";
            line.clear();
        }
        line += (line.empty() ? "" : "; ") + one;
    }
    return line.empty() ? text : text + "travel " + line + "\n";
}

// "library/minibus.json" as "minibus".
std::string library_word(const std::string& path) {
    constexpr std::string_view folder = "library/", ending = ".json";
    if (path.size() <= folder.size() + ending.size() || path.rfind(folder, 0) != 0) return path;
    const std::string name = path.substr(folder.size(), path.size() - folder.size() - ending.size());
    return path.substr(path.size() - ending.size()) == ending &&
                   name.find_first_of("./ ") == std::string::npos
               ? name
               : path;
}

}  // namespace

std::string one_line(const std::string& text) {
    std::string result = text;
    std::replace_if(
        result.begin(), result.end(), [](char c) { return c == '\n' || c == '\r' || c == '\t'; }, ' ');
    return result;
}

std::string stand_word(const Stand& stand, const Stand& before) {
    if (stand == before) return "";
    std::string word = "@";
    if (stand.place != before.place || stand.covers.empty()) word += stand.place;
    for (const std::string& cover : stand.covers) word += "/" + cover;
    return word;
}

std::string minutes_word(const Minutes& minutes) {
    if (!minutes.probe && !minutes.look) return "";
    std::string word = minutes.probe ? short_number(*minutes.probe) : "";
    if (minutes.look) word += "/" + short_number(*minutes.look);
    return word + "'";
}

Minutes minutes_of(const Json& access) {
    Minutes minutes;
    if (access.contains("probe_minutes")) minutes.probe = access["probe_minutes"].get<double>();
    if (access.contains("look_minutes")) minutes.look = access["look_minutes"].get<double>();
    return minutes;
}

std::string quality_words(const Json& part) {
    std::string words;
    for (const Json& mark : part.value("marks", Json::array())) words += " " + mark.get<std::string>();
    if (part.contains("fitted")) {
        const Json& fitted = part["fitted"];
        if (fitted == "no") words += " absent";
        if (fitted == "unknown") words += " maybe";
        if (fitted.is_object() && fitted.contains("option"))
            words += " with " + fitted["option"].get<std::string>();
        if (fitted.is_object() && fitted.contains("without_option"))
            words += " without " + fitted["without_option"].get<std::string>();
    }
    if (part.contains("weight")) words += " weight " + short_number(part["weight"]);
    return words;
}

std::string surroundings_text(const Json& file) {
    std::string text;
    for (const auto& [member, word] :
         {std::pair("title", "title"), {"vehicle", "vehicle"}, {"note", "remark"}}) {
        if (file.contains(member)) text += fmt::format("{} {}\n", word, one_line(file[member]));
    }
    for (const Json& library : file.value("include", Json::array()))
        text += "use " + library_word(library) + "\n";
    for (const Json& option : file.value("options", Json::array())) {
        const std::string fitted = option.value("fitted", "unknown");
        text += fmt::format("option {} {}{}\n", option.value("id", ""), fitted == "unknown" ? "?" : fitted,
                            named(option));
    }
    text += places_text(file) + travel_text(file) + covers_text(file);
    std::vector<std::string> figures;
    const Json assumptions = file.value("assumptions", Json::object());
    for (const auto& [name, value] : assumptions.items())
        figures.push_back(name + " " + short_number(value.get<double>()));
    if (!figures.empty()) text += "assume " + join(figures, "; ") + "\n";
    return text;
}

}  // namespace halfsplit::draft
