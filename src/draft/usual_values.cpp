// What a sheet leaves out gets a usual value, and each of them is listed.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/sheet.hpp"

namespace halfsplit::draft {

namespace {

struct Usual {
    const char* what;
    const char* says;  // before the list of what it is about
};

constexpr Usual usual[] = {
    {"kind", "standard not said, taken for iso11898-2"},
    {"rate", "bit rate not said, taken as 500 kbit/s"},
    {"slow rate", "bit rate not said, taken as 250 kbit/s"},
    {"terminator_ohm", "terminators not said, taken as 120 ohm"},
    {"line names", "lines not named, called H and L"},
    {"line name", "line not named, called H"},
    {"option", "not said whether fitted, kept open"},
    {"cover", "minutes not said, taken as 10 off and 10 on"},
    {"module", "one pair of cavities, taken for modules where the pair ends"},
    {"connector", "taken for connectors by their letter"},
    {"terminator", "taken for terminators by their letter"},
    {"socket", "taken for the diagnostic socket by its name"},
    {"length", "length not said, taken as 1 m"},
    {"colours", "colours not said, left out"},
    {"section", "section not said, taken as 0.5 mm2"},
    {"place", "place not said, taken as the vehicle, nothing to take off"},
};

// Named after the first module that comes with it, or whatever does.
std::string name_of_option(const std::string& id, Sheet& sheet) {
    std::string name;
    for (const Thing& thing : sheet.document.things()) {
        const Json& part = sheet.document.at(thing.pointer);
        const bool comes =
            part.contains("fitted") && part["fitted"].is_object() && part["fitted"].value("option", "") == id;
        if (!comes || !part.contains("name")) continue;
        if (thing.kind == Kind::Module) return part["name"];
        if (name.empty()) name = part["name"];
    }
    return name;
}

void make_option(const std::string& id, Sheet& sheet) {
    const auto state = sheet.option_states.find(id);
    const bool said = state != sheet.option_states.end();
    if (!said) sheet.missing("option", id);
    Json option{{"id", id}};
    if (const std::string name = name_of_option(id, sheet); !name.empty()) {
        option["name"] = name;
        sheet.missing("option name", id);
    }
    option["fitted"] = !said || state->second.text == "?" ? "unknown" : state->second.text;
    sheet.document.append("options", std::move(option), said ? state->second.at : At{});
}

void make_places(Sheet& sheet) {
    for (const std::string& id : sheet.places.made) {
        sheet.document.append("places", Json{{"id", id}}, {});
        sheet.missing("made place", id);
    }
    for (const std::string& id : sheet.covers.made) {
        sheet.document.append("covers", Json{{"id", id}, {"off_minutes", 10}, {"on_minutes", 10}}, {});
        sheet.missing("made cover", id);
    }
    for (const std::string& id : sheet.options.made) make_option(id, sheet);
}

// Whatever has no place of its own is at "vehicle".
void fill_places(Sheet& sheet) {
    if (sheet.unsaid.find("place") == sheet.unsaid.end()) return;
    bool known = false;
    for (const std::string& id : sheet.places.ids) known = known || id == "vehicle";
    if (!known) sheet.document.append("places", Json{{"id", "vehicle"}}, {});
    const auto fill = [](Json& part) {
        if (part.contains("access") && part["access"].value("place", "").empty())
            part["access"]["place"] = "vehicle";
    };
    for (const Thing& thing : sheet.document.things()) fill(sheet.document.at(thing.pointer));
    for (const auto& [id, pointer] : sheet.wires) fill(sheet.document.at(pointer));
}

std::vector<std::string> listed_values(const Sheet& sheet) {
    std::vector<std::string> lines;
    const auto add = [&](const char* what, const std::string& says) {
        const auto ids = sheet.unsaid.find(what);
        if (ids != sheet.unsaid.end()) lines.push_back(says + ": " + join(ids->second, ", "));
    };
    for (const Usual& entry : usual) add(entry.what, entry.says);
    add("made place", "places that no line declares, entered by their name alone");
    add("made cover", "covers that no line declares, taken as 10 minutes off and 10 on");
    add("short", "names that were cut short");
    add("option name", "options named after what comes with them");
    return lines;
}

// Minutes that no line says, counted: the format has usual ones of its own.
void add_minutes(Sheet& sheet, std::vector<std::string>& lines) {
    std::size_t probes = 0, looks = 0;
    const auto count = [&](const Json& part, bool probed) {
        if (!part.contains("access")) return;
        if (probed && !part["access"].contains("probe_minutes")) ++probes;
        if (!part["access"].contains("look_minutes")) ++looks;
    };
    for (const Thing& thing : sheet.document.things()) count(sheet.document.at(thing.pointer), true);
    for (const auto& [id, pointer] : sheet.wires) count(sheet.document.at(pointer), false);
    if (probes > 0)
        lines.push_back(
            fmt::format("a reading takes 1 minute where none is said: {}", counted(probes, "part")));
    if (looks > 0)
        lines.push_back(fmt::format("a look takes 3 minutes where none is said: {}", counted(looks, "part")));
}

}  // namespace

std::vector<std::string> take_usual_values(Sheet& sheet) {
    make_places(sheet);
    fill_places(sheet);
    if (sheet.places.ids.empty() && sheet.document.list("places").empty())
        sheet.document.append("places", Json{{"id", "vehicle"}}, {});
    std::vector<std::string> lines = listed_values(sheet);
    add_minutes(sheet, lines);
    if (sheet.document.head().contains("title") || sheet.buses.empty()) return lines;
    lines.push_back("no title");
    return lines;
}

}  // namespace halfsplit::draft
