// Cavities: who has which, and for which line.
#include "halfsplit/base/text.hpp"

#include "harness/reading.hpp"

namespace halfsplit::harness {

namespace {

bool usable_name(const Member& cavity, Index part, Reading& reading) {
    const std::string name = cavity.text();
    if (is_name(name, true)) return true;
    reading.wiring_sound = false;
    reading.vague.insert(part);
    if (!name.empty()) {
        reading.findings.error(
            "bad-name", cavity.pointer(),
            {"\"" + name + "\" cannot be the name of a cavity", "letters, digits, _ + - and .", "",
             "write it as it is moulded into the part"});
    }
    return false;
}

}  // namespace

std::string line_in_words(const Harness& harness, Index network, Line line) {
    if (harness.networks[network].single_line) return harness.networks[network].id;
    return std::string("line ") + (line == Line::High ? "H" : "L") + " of " + harness.networks[network].id;
}

void say_used_twice(const Member& where, Index terminal, const std::string& first, Reading& reading) {
    reading.wiring_sound = false;
    reading.findings.error(
        "cavity-used-twice", where.pointer(),
        {terminal_name(reading.harness, terminal) + " is taken already", "one wire in each cavity", "",
         "correct one of the two; where wires really join, add a splice", first});
}

Index declare(const Member& cavity, Index part, char half, Reading& reading) {
    if (!usable_name(cavity, part, reading)) return none;
    const Index terminal = half == 0 ? reading.terminals.make(reading.harness, part, half, cavity.text())
                                     : connector_terminal(cavity, part, half, cavity.text(), reading);
    if (terminal == none) return none;
    Terminals::Use& use = reading.terminals.use(terminal);
    if (use.declared) {
        say_used_twice(cavity, terminal, use.declared_at, reading);
        return none;
    }
    use.declared = true;
    use.declared_at = cavity.pointer();
    return terminal;
}

void say_second_line(const Member& line, Index network, Reading& reading) {
    reading.wiring_sound = false;
    reading.findings.error("second-line", line.pointer(),
                           {reading.harness.networks[network].id + " is a single line, and here is another",
                            "\"h\" alone", "", "delete it, or give the network the kind of its bus"});
}

void check_lines(const Member& lines, Index network, Reading& reading) {
    if (network == none || !lines.is_object()) return;
    const Network& it = reading.harness.networks[network];
    if (lines.has("l") == !it.single_line) return;
    if (it.single_line) return say_second_line(lines["l"], network, reading);
    reading.wiring_sound = false;
    reading.findings.error(
        "missing-member", lines.pointer(),
        {"the member \"l\" is missing", "cavity of line L", "",
         "add it; where there is one wire only, the network is of the kind \"single-line\""});
}

Port declare_port(const Member& pins, Index part, Index network, Reading& reading) {
    Port port;
    check_lines(pins, network, reading);
    for (const Line line : lines_of(reading.harness, network)) {
        if (line == Line::Low && !pins.has("l")) continue;
        const Member cavity = pins[line == Line::High ? "h" : "l"];
        const Index terminal = declare(cavity, part, 0, reading);
        if (terminal == none || network == none) continue;
        assign_line(cavity, terminal, network, line, reading);
        port.terminal[static_cast<std::size_t>(line)] = terminal;
    }
    return port;
}

Index connector_terminal(const Member& where, Index part, char half, const std::string& cavity,
                         Reading& reading) {
    const auto face = reading.faces.find(part);
    if (face != reading.faces.end() && !face->second.contains(cavity)) {
        reading.wiring_sound = false;
        const std::string& id = reading.harness.parts[part].id;
        reading.findings.error(
            "unknown-cavity", where.pointer(),
            {"the face of " + id + " shows no cavity \"" + cavity + "\"", "a cavity of its face",
             nearest_name(cavity, reading.harness.parts[part].face.cavities),
             "correct the cavity, or add it to the face"});
        return none;
    }
    return reading.terminals.make(reading.harness, part, half, cavity);
}

bool assign_line(const Member& where, Index terminal, Index network, Line line, Reading& reading) {
    Terminal& it = reading.harness.terminals[terminal];
    if (it.network == none) {
        it.network = network;
        it.line = line;
        return true;
    }
    if (it.network == network && it.line == line) return true;
    reading.wiring_sound = false;
    reading.findings.error(
        "wrong-line", where.pointer(),
        {terminal_name(reading.harness, terminal) + " is " +
             line_in_words(reading.harness, it.network, it.line) + ", not " +
             line_in_words(reading.harness, network, line),
         "ends of one line at terminals of that line", "", "exchange the two wires, or correct the pins"});
    return false;
}

}  // namespace halfsplit::harness
