// Modules, connectors and splices of the document.
#include <fmt/format.h>

#include "draft/loom_document.hpp"

namespace halfsplit::draft {

namespace {

constexpr std::size_t most_neighbours =
    1000;  // of a connector: docs/reference/harness-format.md, "connectors"

}  // namespace

void LoomDocument::write_part(const ShapedPart& part) {
    const LoomPart& it = loom_.parts[part.part];
    if (!it.assumed.empty()) assumed_.push_back(it.assumed);
    if (it.mate != nowhere && !loom_.parts[it.mate].assumed.empty())
        assumed_.push_back(loom_.parts[it.mate].assumed);
    if (part.shape == Shape::Splice) {
        Json splice = named(part.ids.front(), it);
        splice["network"] = network_;
        splice["access"] = access_to(part.part);
        add("splices", std::move(splice), it.offset);
    } else if (part.shape == Shape::Connector) {
        write_connector(part);
    } else {
        write_modules(part);
    }
}

// The cavities of the contacts with this number, by line.
nlohmann::ordered_json LoomDocument::pins(const ShapedPart& part, std::size_t contact) {
    Json result;
    for (std::size_t line = 0; line < followed_.lines.size(); ++line)
        result[line == 0 ? "h" : "l"] = names_.cavity(part.part, part.contacts[line][contact]);
    return result;
}

void LoomDocument::write_modules(const ShapedPart& part) {
    const LoomPart& it = loom_.parts[part.part];
    for (std::size_t index = 0; index < part.ids.size(); ++index) {
        const bool loop = part.loop && index == 0;
        const std::size_t contact = part.loop && index > 0 ? index + 1 : index;
        Json module = named(part.ids[index], it, index > 0 ? ", cavity " + part.contacts[0][contact] : "");
        module["access"] = access_to(part.part);
        Json bus{{"network", network_}, {"attach", loop ? "loop" : "spur"}};
        bus[loop ? "in" : "pins"] = pins(part, contact);
        if (loop) bus["out"] = pins(part, contact + 1);
        module["buses"] = Json::array({std::move(bus)});
        add("modules", std::move(module), it.offset);
    }
    if (part.ids.size() > 1)
        assumed_.push_back(fmt::format(
            "{} stands here {} times, for {} contacts of the line: unplugging one unplugs them all", it.id,
            part.ids.size(), part.module_contacts()));
    if (part.rest.empty()) return;
    Json rest = named(part.rest, it);
    rest["access"] = access_to(part.part);
    add("connectors", std::move(rest), it.offset);
    assumed_.push_back(it.id + ": not as many contacts of one line as of the other; those over end at " +
                       part.rest);
}

void LoomDocument::write_connector(const ShapedPart& part) {
    const LoomPart& it = loom_.parts[part.part];
    Json connector = named(part.ids.front(), it);
    connector["access"] = access_to(part.part);
    Json halves;
    Json other_wires = Json::array();
    for (const std::size_t half : {part.part, it.mate}) {
        if (half == nowhere) continue;
        const LoomPart& one = loom_.parts[half];
        const std::string letter(1, one.half == 0 ? 'a' : one.half);
        if (it.mate != nowhere) halves[letter]["name"] = named("", one)["name"];
        if (places_.of(half) != places_.of(part.part)) halves[letter]["access"] = access_to(half);
        add_neighbours(half, part, letter, other_wires);
    }
    if (it.mate != nowhere) {
        connector["name"] = fitting_words(it.connector);
        connector["halves"] = std::move(halves);
    }
    if (!other_wires.empty()) connector["other_wires"] = std::move(other_wires);
    add("connectors", std::move(connector), it.offset);
}

// Wires of other lines in the same half, one for each cavity: they could be taken for the one that is
// followed.
void LoomDocument::add_neighbours(std::size_t half, const ShapedPart& part, const std::string& letter,
                                  Json& list) {
    std::set<std::string> taken;
    for (const auto& contacts : part.contacts) taken.insert(contacts.begin(), contacts.end());
    for (const std::size_t wire : wires_at_[half]) {
        const LoomWire& it = loom_.wires[wire];
        if (followed_.unused[wire].empty() || !it.unusable.empty()) continue;
        const std::string& cavity = it.ends[it.ends[0].part == half ? 0 : 1].cavity;
        if (list.size() == most_neighbours || !taken.insert(cavity).second) continue;
        Json other{{"half", letter},
                   {"cavity", names_.cavity(part.part, cavity)},
                   {"circuit", fitting_words(it.signal.empty() ? "wire " + it.id : it.signal)}};
        if (!it.colour.base.empty()) other["colour"] = colour_entry(it.colour);
        list.push_back(std::move(other));
        neighbours_.insert(wire);
    }
}

void LoomDocument::write_joints() {
    for (const Joint& joint : shapes_.joints()) {
        const LoomPart& it = loom_.parts[joint.part];
        const std::string where = (joint.cavity.empty() ? "" : "cavity " + joint.cavity + " of ") + it.id;
        add("splices",
            {{"id", joint.id},
             {"name", fitting_words("wires crimped together in " + where)},
             {"network", network_},
             {"access", access_to(joint.part)}},
            it.offset);
        assumed_.push_back("several wires in " + where + ": drawn as splice " + joint.id +
                           " with 10 mm to the contact");
    }
}

}  // namespace halfsplit::draft
