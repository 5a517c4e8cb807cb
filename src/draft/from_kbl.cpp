#include "halfsplit/draft/from_kbl.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/kbl_file.hpp"
#include "draft/kbl_layout.hpp"
#include "draft/kbl_parts.hpp"
#include "draft/kbl_values.hpp"
#include "draft/source.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <unordered_map>
#include <utility>

namespace halfsplit::draft {

namespace {

// What a harness file has no room for, or what is read on the way to something else, by element of Harness.
constexpr std::array<std::string_view, 8> read_elements{
    {"Connection", "Connector_occurrence", "Component_box_occurrence", "General_wire_occurrence",
     "Special_terminal_occurrence", "Terminal_occurrence", "Wiring_group", "Module_families"}};

// Reads the conductors. Each wire of its own and each core of a cable is one; so is a cable that a connection
// names itself, by its shield.
class KblWires {
  public:
    KblWires(const KblFile& file, const KblLayout& layout, const KblParts& parts, Loom& loom)
        : file_(file), layout_(layout), parts_(parts), loom_(loom) {
        for (const pugi::xml_node connection : file.harness().children("Connection"))
            connections_[kbl_text(connection, "Wire")].push_back(connection);
        for (const pugi::xml_node group : file.harness().children("Wiring_group")) {
            for (const std::string& wire : kbl_references(group, "Assigned_wire"))
                groups_.emplace(wire, kbl_text(group, "Id"));
        }
    }

    void read() {
        for (const pugi::xml_node occurrence : file_.harness().children("General_wire_occurrence")) {
            const auto cores = occurrence.children("Core_occurrence");
            if (cores.empty()) {
                add(occurrence, occurrence);
                continue;
            }
            for (const pugi::xml_node core : cores) add(core, occurrence);
            if (!connections_[occurrence.attribute("id").value()].empty()) {
                add(occurrence, occurrence);
                loom_.wires.back().unusable = "it is the cable's shield, which is no line";
            }
        }
        say_strays();
    }

  private:
    // `cable` is the wire itself where it is no core.
    void add(pugi::xml_node occurrence, pugi::xml_node cable) {
        LoomWire wire;
        const std::string id = occurrence.attribute("id").value();
        wire.offset = file_.offset(occurrence);
        wire.id = kbl_text(occurrence, "Wire_number");
        if (wire.id.empty()) wire.id = kbl_text(occurrence, "Special_wire_id");
        if (wire.id.empty()) wire.id = id;
        read_kind(occurrence, cable, wire);
        connect(id, wire);
        read_length(occurrence, connections_[id], wire);
        loom_.wires.push_back(std::move(wire));
    }

    // What the part of the wire says: its section, its colours, whether it is twisted with another.
    void read_kind(pugi::xml_node occurrence, pugi::xml_node cable, LoomWire& wire) {
        const std::string part_id = kbl_text(occurrence, "Part");
        const pugi::xml_node part = file_.find(part_id);
        if (!part)
            loom_.left_out.push_back("colour and section of wire " + wire.id + ": its part " +
                                     file_.why_not(part_id));
        const bool is_core = occurrence != cable;
        wire.section_mm2 = kbl_figure(file_, part, "Cross_section_area", true);
        wire.colour = colour_of(part, is_core ? "Core_colour" : "Cover_colour");
        const std::string type = lower(kbl_text(part, "Wire_type"));
        const auto group = groups_.find(occurrence.attribute("id").value());
        wire.twisted = type.find("twist") != std::string::npos || group != groups_.end();
        if (group != groups_.end()) {
            wire.group = "group " + group->second;
        } else if (is_core) {
            const std::string cable_id = kbl_text(cable, "Special_wire_id");
            wire.group = "cable " + (cable_id.empty() ? cable.attribute("id").value() : cable_id);
        }
    }

    harness::Colour colour_of(pugi::xml_node part, const char* child) {
        if (!part) return {};
        const auto [known, fresh] = colours_.try_emplace(part.attribute("id").value());
        if (fresh) known->second = kbl_colour(part, child, loom_.left_out);
        return known->second;
    }

    void connect(const std::string& id, LoomWire& wire) {
        const std::vector<pugi::xml_node>& connections = connections_[id];
        if (!file_.find(id)) {
            wire.unusable = "its id " + file_.why_not(id);
        } else if (connections.empty()) {
            wire.unusable = "no connection says where it goes";
        } else if (connections.size() > 1) {
            wire.unusable = "several connections name it, and none says which end of it is whose";
        }
        if (connections.empty()) return;
        wire.signal = kbl_text(connections.front(), "Signal_name");
        wire.offset = file_.offset(connections.front());
        if (!wire.unusable.empty()) return;
        std::vector<std::pair<double, pugi::xml_node>> ends;
        for (const pugi::xml_node end : connections.front().children("Extremities"))
            ends.emplace_back(kbl_number(kbl_text(end, "Position_on_wire")).value_or(0), end);
        std::stable_sort(ends.begin(), ends.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        if (ends.size() != 2) {
            wire.unusable = fmt::format("it has {} ends, and a wire has two", ends.size());
            return;
        }
        for (std::size_t end = 0; end < 2 && wire.unusable.empty(); ++end)
            wire.ends[end] = parts_.end_at(kbl_text(ends[end].second, "Contact_point"), wire.unusable);
    }

    // The longest that is stated (a wire is cut to it); else its way over the segments.
    void read_length(pugi::xml_node occurrence, const std::vector<pugi::xml_node>& connections,
                     LoomWire& wire) {
        for (const pugi::xml_node length : occurrence.children("Length_information"))
            wire.length_m = std::max(wire.length_m, kbl_figure(file_, length, "Length_value"));
        if (wire.length_m > 0 || connections.empty()) return;
        wire.length_m = layout_.way_m(connections.front().attribute("id").value());
        if (wire.length_m > 0)
            wire.assumed = fmt::format("length of wire {}: {:.3g} m, that of its way through the layout",
                                       wire.id, wire.length_m);
    }

    // Connections of wires that are not there.
    void say_strays() {
        for (const pugi::xml_node connection : file_.harness().children("Connection")) {
            const std::string wire = kbl_text(connection, "Wire");
            const pugi::xml_node found = file_.find(wire);
            const std::string_view kind = found.name();
            if (kind == "General_wire_occurrence" || kind == "Core_occurrence") continue;
            loom_.left_out.push_back("connection \"" + kbl_text(connection, "Id") + "\": its wire " +
                                     (found ? "is a " + kbl_name(found) : file_.why_not(wire)));
        }
    }

    const KblFile& file_;
    const KblLayout& layout_;
    const KblParts& parts_;
    Loom& loom_;
    std::unordered_map<std::string, std::vector<pugi::xml_node>> connections_;  // by id of the wire
    std::unordered_map<std::string, std::string> groups_;                       // by id of the wire
    std::unordered_map<std::string, harness::Colour> colours_;                  // by id of the part
};

void say_unread(const KblFile& file, const KblLayout& layout, Loom& loom) {
    std::map<std::string, std::size_t> counts;
    for (const pugi::xml_node child : file.harness().children()) {
        const bool occurs = std::string_view(child.name()).find("_occurrence") != std::string_view::npos;
        const bool is_read =
            std::find(read_elements.begin(), read_elements.end(), child.name()) != read_elements.end();
        if ((occurs || std::string_view(child.name()) == "Schematic_connection") && !is_read)
            ++counts[child.name()];
    }
    for (const auto& [name, count] : counts)
        loom.left_out.push_back(fmt::format("{} x {}: a harness file has no room for it", count, name));
    const auto modules = file.harness().children("Module");
    const auto variants = std::distance(modules.begin(), modules.end());
    if (variants > 1)
        loom.left_out.push_back(
            fmt::format("{} modules of the loom: all of them are taken as fitted", variants));
    if (layout.nodes() + layout.segments() > 0)
        loom.left_out.push_back(
            fmt::format("{} nodes and {} segments of the layout: kept are the nodes near parts, as places",
                        layout.nodes(), layout.segments()));
}

}  // namespace

std::string kbl_reader() {
    // 1.13 is PUGIXML_VERSION 1130.
    return fmt::format("pugixml {}.{}", PUGIXML_VERSION / 1000, PUGIXML_VERSION / 10 % 100);
}

LoomRead read_kbl(std::string_view text, const std::string& file_name) {
    Collector findings;
    LoomRead result;
    const KblFile file(text, findings);
    if (!findings.errors()) {
        Loom loom;
        loom.title = kbl_text(file.harness(), "Description");
        if (loom.title.empty()) loom.title = kbl_text(file.harness(), "Part_number");
        const KblLayout layout(file);
        const KblParts parts(file, layout, loom);
        KblWires(file, layout, parts, loom).read();
        say_unread(file, layout, loom);
        result.loom = std::move(loom);
    }
    result.findings = findings.placed(SourceOrigins(text, file_name));
    return result;
}

}  // namespace halfsplit::draft
