// Bridge plugs: what each stands in for, and where it sits.
#include "halfsplit/base/text.hpp"

#include "harness/reading.hpp"

namespace halfsplit::harness {

namespace {

void read_purpose(const Member& member, Part& plug, Reading& reading) {
    const Member reference = member["stands_in_for"];
    const std::string id = reference.text();
    if (id.empty()) {
        reading.wiring_sound = false;
        return;
    }
    plug.stands_in_for_option = reading.options.find(id);
    if (plug.stands_in_for_option != none) return;
    const Index part = reading.parts.find(id);
    if (part == none || reading.harness.parts[part].kind != PartKind::Module) {
        reading.wiring_sound = false;
        const std::string near = reading.parts.nearest(id);
        reading.findings.error("plug-for-nothing", reference.pointer(),
                               {"no module and no option has the id \"" + id + "\"",
                                "the id of what the plug replaces when that is not fitted",
                                part != none ? "" : (near.empty() ? reading.options.nearest(id) : near),
                                "correct the id, or delete the plug"});
        return;
    }
    plug.stands_in_for_part = part;
    if (reading.part_members[part].has("fitted")) return;
    reading.findings.warning(
        "plug-for-nothing", reference.pointer(),
        {id + " is always fitted, so that the plug is never there", "a module that may be absent", "",
         "give " + id + " a \"fitted\", or delete the plug"});
}

struct Seat {
    Index part = none;
    char half = 0;
};

// Where "M2" or "X5.a" points; part none where it points nowhere.
Seat read_seat(const Member& at, Reading& reading) {
    std::string id = at.text();
    Seat seat;
    if (id.size() > 2 && id[id.size() - 2] == '.') {
        seat.half = id.back();
        id.resize(id.size() - 2);
    }
    seat.part = reading.parts.find(id);
    if (seat.part != none) {
        const PartKind kind = reading.harness.parts[seat.part].kind;
        const bool half_named = seat.half == 'a' || seat.half == 'b';
        if (kind == PartKind::Module && seat.half == 0) return seat;
        if (kind == PartKind::Connector && half_named) return seat;
    }
    reading.wiring_sound = false;
    reading.findings.error("bad-terminal", at.pointer(),
                           {"a bridge plug cannot sit at \"" + at.text() + "\"",
                            "the id of a module, or a connector half such as X5.a",
                            seat.part == none ? reading.parts.nearest(id) : "",
                            "correct it, or leave \"at\" out where the plug has terminals of its own"});
    return {};
}

// The terminal of the part at which the plug sits.
Index shared_terminal(const Member& cavity, const Seat& seat, Reading& reading) {
    const std::string name = cavity.text();
    if (!is_name(name, true)) {
        reading.wiring_sound = false;
        return none;
    }
    if (seat.half == 0) {
        const Index terminal = reading.terminals.find(seat.part, 0, name);
        if (terminal != none) return terminal;
        reading.wiring_sound = false;
        if (reading.vague.contains(seat.part)) return none;
        const std::string& id = reading.harness.parts[seat.part].id;
        reading.findings.error("unknown-cavity", cavity.pointer(),
                               {id + " has no bus pin in cavity \"" + name + "\"", "a cavity of its pins", "",
                                "correct the cavity"});
        return none;
    }
    const Index terminal = connector_terminal(cavity, seat.part, seat.half, name, reading);
    if (terminal == none) return none;
    Terminals::Use& use = reading.terminals.use(terminal);
    if (use.declared && reading.harness.terminals[terminal].network == none) {
        say_used_twice(cavity, terminal, use.declared_at, reading);
        return none;
    }
    use.declared = true;
    use.declared_at = cavity.pointer();
    return terminal;
}

Port read_port(const Member& pins, Index index, const Seat& seat, Reading& reading) {
    const Index network = reading.harness.parts[index].network;
    if (seat.part == none) return declare_port(pins, index, network, reading);
    Port port;
    check_lines(pins, network, reading);
    for (const Line line : lines_of(reading.harness, network)) {
        if (line == Line::Low && !pins.has("l")) continue;
        const Member cavity = pins[line == Line::High ? "h" : "l"];
        const Index terminal = shared_terminal(cavity, seat, reading);
        if (terminal == none || network == none) continue;
        if (!assign_line(cavity, terminal, network, line, reading)) continue;
        port.terminal[static_cast<std::size_t>(line)] = terminal;
    }
    return port;
}

void read_plug_access(const Member& member, Index index, const Seat& seat, Reading& reading) {
    if (member.has("access")) return;
    if (seat.part == none) {
        reading.findings.error(
            "missing-member", member.pointer(),
            {"the member \"access\" is missing", "what it takes to get at the plug", "",
             "add \"access\", or \"at\" where the plug sits at a module or a connector half"});
        return;
    }
    const Part& host = reading.harness.parts[seat.part];
    const auto& half = host.half_access[seat.half == 'b' ? 1 : 0];
    reading.harness.parts[index].access = seat.half != 0 && half ? *half : host.access;
}

}  // namespace

void read_plugs(Reading& reading) {
    for (Index index = 0; index < reading.harness.parts.size(); ++index) {
        if (reading.harness.parts[index].kind != PartKind::BridgePlug) continue;
        const Member member = reading.part_members[index];
        read_purpose(member, reading.harness.parts[index], reading);
        Seat seat;
        if (member["at"].is_text()) {
            seat = read_seat(member["at"], reading);
            if (seat.part == none) continue;
        }
        reading.harness.parts[index].in = read_port(member["in"], index, seat, reading);
        reading.harness.parts[index].out = read_port(member["out"], index, seat, reading);
        read_plug_access(member, index, seat, reading);
    }
}

}  // namespace halfsplit::harness
