// How each part is connected: modules, socket, splices, terminators, connectors.
#include "harness/reading.hpp"

#include <algorithm>
#include <unordered_set>
#include <utility>

namespace halfsplit::harness {

namespace {

Attachment::Terminator terminator_from(const std::string& word) {
    using Terminator = Attachment::Terminator;
    if (word == "built-in") return Terminator::BuiltIn;
    if (word == "switched-on") return Terminator::SwitchedOn;
    return word == "switched-off" ? Terminator::SwitchedOff : Terminator::None;
}

double nominal_ohm(const Reading& reading, Index network) {
    return network == none ? 120 : reading.harness.networks[network].terminator_ohm;
}

void read_socket(const Member& member, Index index, Reading& reading) {
    Part& part = reading.harness.parts[index];
    for (const Member& entry : member["ports"].entries()) {
        Attachment attachment;
        attachment.network = read_network(entry, reading);
        attachment.in = declare_port(entry, index, attachment.network, reading);
        part.attachments.push_back(attachment);
    }
    for (const char* circuit : {"ground", "supply"}) {
        if (!member.has(circuit)) continue;
        const Index terminal = declare(member[circuit], index, 0, reading);
        if (terminal != none) part.other_wires.push_back({terminal, circuit, {}});
    }
}

// A loop names where the pair goes in and out, a spur the pins where it ends.
bool attachment_is_clear(const Member& bus, Index part, Reading& reading) {
    const std::string attach = bus.text("attach");
    const bool loop = attach == "loop";
    const bool as_loop = bus.has("in") && bus.has("out") && !bus.has("pins");
    const bool as_spur = bus.has("pins") && !bus.has("in") && !bus.has("out");
    if (attach == "spur" ? as_spur : loop && as_loop) return true;
    reading.wiring_sound = false;
    reading.vague.insert(part);
    if (!loop && attach != "spur") return false;  // the schema's business
    reading.findings.error(
        "bad-attachment", bus.pointer(),
        {loop ? "a loop that does not say where the pair goes in and out"
              : "a spur that does not say at which pins the pair ends",
         loop ? "\"in\" and \"out\", and no \"pins\"" : "\"pins\", and neither \"in\" nor \"out\"", "",
         "check whether the module passes the pair through (loop) or ends it (spur)"});
    return false;
}

void read_load(const Member& bus, Attachment& attachment, Reading& reading) {
    if (!bus.has("load_ohm")) return;
    attachment.load_ohm = bus.number("load_ohm", 0);
    if (attachment.network == none || reading.harness.networks[attachment.network].single_line) return;
    reading.findings.error("bad-attachment", bus["load_ohm"].pointer(),
                           {"a load to ground on a pair", "\"load_ohm\" on a network of the kind single-line",
                            "", "delete it; a terminator of the bus is \"terminator\""});
}

void read_module(const Member& member, Index index, Reading& reading) {
    for (const Member& bus : member["buses"].entries()) {
        Attachment attachment;
        attachment.network = read_network(bus, reading);
        attachment.loop = bus.text("attach") == "loop";
        attachment.terminator = terminator_from(bus.text("terminator"));
        attachment.terminator_ohm = bus.number("terminator_ohm", nominal_ohm(reading, attachment.network));
        read_load(bus, attachment, reading);
        if (!attachment_is_clear(bus, index, reading)) continue;
        attachment.in =
            declare_port(bus[attachment.loop ? "in" : "pins"], index, attachment.network, reading);
        if (attachment.loop) attachment.out = declare_port(bus["out"], index, attachment.network, reading);
        reading.harness.parts[index].attachments.push_back(attachment);
    }
}

void read_face(const Member& member, Index index, Reading& reading) {
    if (!member.is_object()) return;
    Face& face = reading.harness.parts[index].face;
    face.rows = static_cast<std::size_t>(std::clamp(member.number("rows", 0), 0.0, 1000.0));
    face.columns = static_cast<std::size_t>(std::clamp(member.number("columns", 0), 0.0, 1000.0));
    std::unordered_set<std::string> cavities;
    for (const Member& entry : member["cavities"].entries()) {
        const std::string cavity = entry.text();
        face.cavities.push_back(cavity);
        if (cavity.empty() || cavities.insert(cavity).second) continue;
        reading.findings.error("face-mismatch", entry.pointer(),
                               {"the face shows cavity \"" + cavity + "\" twice", "each cavity once", "",
                                "correct the name, or write an empty text where there is no cavity"});
    }
    const std::size_t room = face.rows * face.columns;
    if (room != face.cavities.size()) {
        reading.findings.error("face-mismatch", member["cavities"].pointer(),
                               {std::to_string(face.rows) + " rows of " + std::to_string(face.columns) +
                                    " columns have room for " + std::to_string(room) + " cavities, and " +
                                    std::to_string(face.cavities.size()) + " are listed",
                                "one entry for each", "", "write an empty text where there is no cavity"});
    }
    reading.faces.emplace(index, std::move(cavities));
}

void read_connector(const Member& member, Index index, Reading& reading) {
    Part& part = reading.harness.parts[index];
    const std::array<const char*, 2> halves{"a", "b"};
    for (std::size_t half = 0; half < 2; ++half) {
        const Member entry = member["halves"][halves[half]];
        part.half_name[half] = entry.text("name");
        if (entry.has("access")) part.half_access[half] = read_access(entry["access"], reading);
    }
    read_face(member["face"], index, reading);
    for (const Member& wire : member["other_wires"].entries()) {
        const std::string half = wire.text("half");
        if (half != "a" && half != "b") continue;
        OtherWire other;
        other.circuit = wire.text("circuit");
        other.colour = read_colour(wire["colour"], "base", "stripe", reading);
        other.terminal = declare(wire["cavity"], index, half.front(), reading);
        if (other.terminal != none) part.other_wires.push_back(std::move(other));
    }
}

// A splice has a terminal for each line, where any number of wires may end.
void read_splice(Index index, Reading& reading) {
    Part& part = reading.harness.parts[index];
    for (const Line line : lines_of(reading.harness, part.network)) {
        const Index terminal =
            reading.terminals.make(reading.harness, index, 0, line == Line::High ? "H" : "L");
        reading.terminals.use(terminal).declared = true;
        reading.harness.terminals[terminal].network = part.network;
        reading.harness.terminals[terminal].line = line;
        part.in.terminal[static_cast<std::size_t>(line)] = terminal;
    }
}

}  // namespace

void read_attachments(Reading& reading) {
    for (Index index = 0; index < reading.harness.parts.size(); ++index) {
        const Member member = reading.part_members[index];
        Part& part = reading.harness.parts[index];
        switch (part.kind) {
            case PartKind::Socket:
                read_socket(member, index, reading);
                break;
            case PartKind::Module:
                read_module(member, index, reading);
                break;
            case PartKind::Connector:
                read_connector(member, index, reading);
                break;
            case PartKind::Splice:
                read_splice(index, reading);
                break;
            case PartKind::Terminator:
                part.ohm = member.number("ohm", nominal_ohm(reading, part.network));
                part.in = declare_port(member["pins"], index, part.network, reading);
                break;
            case PartKind::BridgePlug:
            case PartKind::Run:
                break;
        }
    }
}

}  // namespace halfsplit::harness
