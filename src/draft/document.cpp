#include "draft/document.hpp"

#include "halfsplit/base/json_text.hpp"
#include "halfsplit/base/text.hpp"

#include <algorithm>
#include <array>

namespace halfsplit::draft {

namespace {

// By kind.
constexpr std::array<std::string_view, 6> kind_words{"module",     "connector", "splice",
                                                     "terminator", "plug",      "socket"};

const char* list_of(Kind kind) {
    switch (kind) {
        case Kind::Module:
            return "modules";
        case Kind::Connector:
            return "connectors";
        case Kind::Splice:
            return "splices";
        case Kind::Terminator:
            return "terminators";
        case Kind::Plug:
            return "bridge_plugs";
        case Kind::Socket:
            break;
    }
    return "";
}

// However a part came about, its members stand in the same order.
Json entry_in_order(const Json& entry) {
    constexpr std::array<const char*, 40> order{"id",
                                                "name",
                                                "network",
                                                "kind",
                                                "bit_rate",
                                                "terminators",
                                                "longest_stub_m",
                                                "lines",
                                                "clip",
                                                "between",
                                                "off_minutes",
                                                "on_minutes",
                                                "minutes",
                                                "under",
                                                "cautions",
                                                "stands_in_for",
                                                "at",
                                                "fitted",
                                                "ports",
                                                "ground",
                                                "supply",
                                                "buses",
                                                "pins",
                                                "in",
                                                "out",
                                                "h",
                                                "l",
                                                "length_m",
                                                "section_mm2",
                                                "awg",
                                                "twisted",
                                                "ohm",
                                                "terminator_ohm",
                                                "access",
                                                "marks",
                                                "weight",
                                                "halves",
                                                "face",
                                                "other_wires",
                                                "note"};
    if (!entry.is_object()) return entry;
    Json sorted = Json::object();
    for (const char* name : order) {
        if (entry.contains(name)) sorted[name] = entry[name];
    }
    for (const auto& [name, value] : entry.items()) {
        if (!sorted.contains(name)) sorted[name] = value;
    }
    return sorted;
}

}  // namespace

std::string kind_word(Kind kind) {
    return std::string(kind_words[static_cast<std::size_t>(kind)]);
}

std::optional<Kind> read_kind(std::string_view word) {
    const auto* found = std::find(kind_words.begin(), kind_words.end(), lower(word));
    if (found == kind_words.end()) return std::nullopt;
    return static_cast<Kind>(found - kind_words.begin());
}

Document::Document() : head_(Json::object()) {}

std::string Document::append(const std::string& name, Json entry, const At& at) {
    Json& entries = lists_[name];
    if (entries.is_null()) entries = Json::array();
    std::string pointer = "/" + name + "/" + std::to_string(entries.size());
    entries.push_back(std::move(entry));
    place(pointer, at);
    return pointer;
}

Thing& Document::add_thing(Kind kind, const std::string& id, const At& at) {
    Thing thing{id, kind, "/socket"};
    if (kind == Kind::Socket) {
        socket_ = Json{{"id", id}};
        place(thing.pointer, at);
    } else {
        thing.pointer = append(list_of(kind), Json{{"id", id}}, at);
    }
    place(thing.pointer + "/id", at);
    by_lower_[lower(id)].push_back(things_.size());
    things_.push_back(std::move(thing));
    return things_.back();
}

Thing* Document::find(std::string_view id) {
    const auto alike = by_lower_.find(lower(id));
    if (alike == by_lower_.end()) return nullptr;
    for (const std::size_t index : alike->second) {
        if (things_[index].id == id) return &things_[index];
    }
    return alike->second.size() == 1 ? &things_[alike->second.front()] : nullptr;
}

std::vector<std::string> Document::thing_ids() const {
    std::vector<std::string> ids;
    for (const Thing& thing : things_) ids.push_back(thing.id);
    return ids;
}

Json& Document::at(const std::string& pointer) {
    if (pointer == "/socket") return socket_;
    const std::size_t slash = pointer.find('/', 1);
    return lists_.at(pointer.substr(1, slash - 1))[std::stoul(pointer.substr(slash + 1))];
}

Json Document::whole() const {
    Json whole{{"format", "halfsplit-harness"}, {"version", 1}};
    for (const auto& [name, value] : head_.items()) whole[name] = value;
    if (!socket_.is_null()) whole["socket"] = socket_;
    for (const auto& [name, list] : lists_) {
        if (!list.empty()) whole[name] = list;
    }
    return in_order(whole);
}

Json Document::in_order(const Json& file) {
    constexpr std::array<const char*, 21> order{
        "format",   "version",    "title",   "vehicle",     "note",         "include", "libraries",
        "networks", "options",    "places",  "start",       "travel",       "covers",  "socket",
        "modules",  "connectors", "splices", "terminators", "bridge_plugs", "runs",    "assumptions"};
    Json sorted = Json::object();
    for (const char* name : order) {
        if (!file.contains(name)) continue;
        const Json& value = file[name];
        if (!value.is_array()) {
            sorted[name] = std::string_view(name) == "socket" ? entry_in_order(value) : value;
            continue;
        }
        sorted[name] = Json::array();
        for (const Json& entry : value) sorted[name].push_back(entry_in_order(entry));
    }
    return sorted;
}

Stand stand_of(const Json& part, char half) {
    const Json* access = part.contains("access") ? &part["access"] : nullptr;
    if (half != 0 && part.contains("halves")) {
        const Json& halves = part["halves"];
        const std::string name(1, half);
        if (halves.contains(name) && halves[name].contains("access")) access = &halves[name]["access"];
    }
    Stand stand;
    if (access == nullptr) return stand;
    stand.place = access->value("place", "");
    if (access->contains("covers")) stand.covers = (*access)["covers"].get<std::vector<std::string>>();
    return stand;
}

Json access_to_json(const Stand& stand, const Minutes& minutes) {
    Json access{{"place", stand.place}};
    if (!stand.covers.empty()) access["covers"] = stand.covers;
    if (minutes.probe) access["probe_minutes"] = number_to_json(*minutes.probe);
    if (minutes.look) access["look_minutes"] = number_to_json(*minutes.look);
    return access;
}

std::vector<Location> SheetOrigins::locate(const std::vector<Spot>& spots) const {
    std::vector<Location> result;
    for (const Spot& spot : spots) {
        std::string pointer = spot.pointer;
        auto found = places_.find(pointer);
        while (found == places_.end() && !pointer.empty()) {
            pointer.resize(pointer.rfind('/'));
            found = places_.find(pointer);
        }
        const At at = found == places_.end() ? At{} : found->second;
        result.push_back({file_name_, at.line, at.column});
    }
    return result;
}

void SheetOrigins::quote(std::vector<Finding>& findings) const {
    quote_lines(findings, text_);
}

}  // namespace halfsplit::draft
