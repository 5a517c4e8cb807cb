#include "draft/differences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace halfsplit::draft {

namespace {

using Value = nlohmann::json;  // members in alphabetical order: two of them compare whatever their order was

void drop_when(Value& object, const char* member, const Value& usual) {
    if (object.contains(member) && object[member] == usual) object.erase(member);
}

// A list whose order says nothing.
void sort_list(Value& object, const char* member) {
    if (!object.contains(member) || !object[member].is_array()) return;
    std::sort(object[member].begin(), object[member].end());
    if (object[member].empty()) object.erase(member);
}

// What a part has on each network, by its name.
void by_network(Value& part, const char* list) {
    if (!part.contains(list)) return;
    Value all = Value::object();
    for (Value& entry : part[list]) {
        drop_when(entry, "terminator", "none");
        all[entry.value("network", "")] = entry;
    }
    part[list] = std::move(all);
}

void plain_access(Value& part) {
    if (!part.is_object() || !part.contains("access")) return;
    Value& access = part["access"];
    drop_when(access, "probe_minutes", 1);
    drop_when(access, "look_minutes", 3);
    sort_list(access, "covers");
}

void plain_part(Value& part) {
    plain_access(part);
    drop_when(part, "name", part.value("id", ""));
    drop_when(part, "fitted", "yes");
    drop_when(part, "note", "");
    drop_when(part, "twisted", true);
    drop_when(part, "section_mm2", 0.5);
    for (const char* list : {"marks", "other_wires"}) sort_list(part, list);
    for (const char* list : {"ports", "buses"}) by_network(part, list);
    if (!part.contains("halves")) return;
    for (const char* half : {"a", "b"}) {
        if (!part["halves"].contains(half)) continue;
        plain_access(part["halves"][half]);
        drop_when(part["halves"][half], "name", "");
        drop_when(part["halves"], half, Value::object());
    }
    drop_when(part, "halves", Value::object());
}

void plain_surroundings(Value& file) {
    for (const char* member : {"title", "vehicle", "note"}) drop_when(file, member, "");
    if (file.contains("travel")) {
        drop_when(file["travel"], "default_minutes", 2);
        if (file["travel"].contains("pairs")) {
            for (Value& pair : file["travel"]["pairs"])
                std::sort(pair["between"].begin(), pair["between"].end());
        }
        sort_list(file["travel"], "pairs");
        drop_when(file, "travel", Value::object());
    }
    drop_when(file, "assumptions", Value::object());
    drop_when(file, "include", Value::array());
    for (const char* list : {"places", "covers", "options"}) {
        for (Value& entry : file[list]) {
            drop_when(entry, "name", entry.value("id", ""));
            sort_list(entry, "cautions");
            sort_list(entry, "under");
        }
    }
}

constexpr std::array<const char*, 10> lists{"networks",   "options", "places",      "covers",       "modules",
                                            "connectors", "splices", "terminators", "bridge_plugs", "runs"};

// With usual values taken out, lists of named things as objects by name.
Value plain(const Json& file) {
    Value value = Value::parse(file.dump());
    for (const char* list : lists) {
        if (!value.contains(list)) value[list] = Value::array();
    }
    plain_surroundings(value);
    if (value.contains("socket")) plain_part(value["socket"]);
    for (const char* list : lists) {
        Value by_id = Value::object();
        for (Value& entry : value[list]) {
            plain_part(entry);
            by_id[entry.value("id", "")] = entry;
        }
        value[list] = std::move(by_id);
    }
    return value;
}

std::string shown(const Value& value) {
    std::string text = value.is_string() ? value.get<std::string>() : value.dump();
    if (text.size() > 60) text.replace(57, text.npos, "...");
    return text;
}

class Comparison {
  public:
    void compare(const Value& before, const Value& after, const std::string& where) {
        if (before == after) return;
        if (before.is_object() && after.is_object()) {
            for (const auto& [name, value] : before.items()) {
                std::string inner = where;
                if (!inner.empty()) inner += " ";
                inner += name;
                if (after.contains(name)) {
                    compare(value, after[name], inner);
                } else {
                    std::string line = inner;
                    lines.push_back(std::move(line.append(": ").append(shown(value))));
                }
            }
            for (const auto& [name, value] : after.items()) {
                const bool given_name = name == "name" && where.rfind("runs ", 0) == 0;
                if (!before.contains(name) && !given_name)
                    lines.push_back(fmt::format("{} {}: not said, becomes {}", where, name, shown(value)));
            }
            return;
        }
        lines.push_back(fmt::format("{}: {} becomes {}", where, shown(before), shown(after)));
    }
    std::vector<std::string> lines;
};

}  // namespace

std::vector<std::string> differences(const Json& before, const Json& after) {
    Comparison comparison;
    comparison.compare(plain(before), plain(after), "");
    return std::move(comparison.lines);
}

}  // namespace halfsplit::draft
