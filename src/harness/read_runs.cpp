// Wire pairs from terminal to terminal.
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/wire_gauge.hpp"

#include "harness/reading.hpp"

namespace halfsplit::harness {

namespace {

void say_bad_terminal(const Member& end, const std::string& why, const std::string& expected,
                      Reading& reading) {
    reading.wiring_sound = false;
    reading.findings.error("bad-terminal", end.pointer(),
                           {"\"" + end.text() + "\" names no terminal: " + why, expected, "",
                            "write PART:CAVITY, or PART.a:CAVITY at a connector"});
}

void say_no_cavity(const Member& end, Index part, Reading& reading) {
    reading.wiring_sound = false;
    if (reading.vague.contains(part)) return;
    const Part& it = reading.harness.parts[part];
    std::vector<std::string> known;
    for (const Attachment& attachment : it.attachments) {
        for (const Port& port : {attachment.in, attachment.out}) {
            for (const Index terminal : port.terminal) {
                if (terminal != none) known.push_back(terminal_name(reading.harness, terminal));
            }
        }
    }
    for (const Port& port : {it.in, it.out}) {
        for (const Index terminal : port.terminal) {
            if (terminal != none) known.push_back(terminal_name(reading.harness, terminal));
        }
    }
    reading.findings.error(
        "unknown-cavity", end.pointer(),
        {it.id + " has no terminal \"" + end.text() + "\"",
         known.empty() ? "a pin of the part" : "one of " + join(known, ", "), nearest_name(end.text(), known),
         "correct the cavity, or add the pin to the part"});
}

// The terminal at which a wire ends, whatever else ends there.
Index find_end(const Member& end, Reading& reading) {
    const std::string text = end.text();
    if (text.empty()) {
        reading.wiring_sound = false;
        return none;
    }
    const auto reference = parse_terminal(text);
    if (!reference) {
        say_bad_terminal(end, "it is not of that form", "a terminal such as M1:2, X3.a:4 or S1:H", reading);
        return none;
    }
    const Index part = reading.parts.find(reference->part);
    if (part == none) {
        reading.wiring_sound = false;
        reading.findings.error(
            "unknown-reference", end.pointer(),
            {"no part has the id \"" + reference->part + "\"", "the id of a part of this file",
             reading.parts.nearest(reference->part), "correct the id, or add the part"});
        return none;
    }
    const bool connector = reading.harness.parts[part].kind == PartKind::Connector;
    if (connector != (reference->half != 0)) {
        const std::string& id = reference->part;
        say_bad_terminal(end, connector ? id + " has two halves" : id + " has no halves",
                         connector ? id + ".a:" + reference->cavity + " or " + id + ".b:" + reference->cavity
                                   : id + ":" + reference->cavity,
                         reading);
        return none;
    }
    if (connector) return connector_terminal(end, part, reference->half, reference->cavity, reading);
    const Index terminal = reading.terminals.find(part, 0, reference->cavity);
    if (terminal == none) say_no_cavity(end, part, reading);
    return terminal;
}

Index read_end(const Member& end, Index network, Line line, Reading& reading) {
    const Index terminal = find_end(end, reading);
    if (terminal == none || network == none) return none;
    Terminals::Use& use = reading.terminals.use(terminal);
    const Terminal& it = reading.harness.terminals[terminal];
    if (use.declared && it.network == none) {  // another circuit's
        say_used_twice(end, terminal, use.declared_at, reading);
        return none;
    }
    const bool splice = reading.harness.parts[it.part].kind == PartKind::Splice;
    if (use.wires > 0 && !splice) {
        say_used_twice(end, terminal, use.wired_at, reading);
        return none;
    }
    if (!assign_line(end, terminal, network, line, reading)) return none;
    if (++use.wires == 1) use.wired_at = end.pointer();
    return terminal;
}

void read_strand_colour(const Member& member, Strand& strand, Reading& reading) {
    strand.colour = read_colour(member, "base", "stripe", reading);
    if (!member.has("base") && member.has("stripe")) {
        reading.findings.error("missing-member", member.pointer(),
                               {"a stripe without a base colour", "\"base\" beside \"stripe\"", "",
                                "write the base colour, or take the stripe's for it"});
    }
    if (!member.has("to_base") && !member.has("to_stripe")) return;
    Colour far = read_colour(member, "to_base", "to_stripe", reading);
    if (!member.has("to_base")) far.base = strand.colour.base;
    if (far == strand.colour) return;
    reading.findings.warning(
        "colour-changes", member[member.has("to_base") ? "to_base" : "to_stripe"].pointer(),
        {"the wire is " + in_words(strand.colour) + " at one end and " + in_words(far) + " at the other",
         "one colour from end to end", "", "look for a splice or a connector that the drawing leaves out"});
}

void read_strand(const Member& member, Index index, Line line, Reading& reading) {
    if (!member.is_object()) return;
    const Index network = reading.harness.parts[index].network;
    Strand strand;
    read_strand_colour(member, strand, reading);
    if (member["from"].is_text() && member.text("from") == member.text("to")) {
        reading.wiring_sound = false;
        reading.findings.error(
            "run-in-place", member["to"].pointer(),
            {"the wire ends where it begins", "two different terminals", "", "correct one of its ends"});
        return;
    }
    strand.from = read_end(member["from"], network, line, reading);
    strand.to = read_end(member["to"], network, line, reading);
    if (strand.from == none || strand.to == none) return;
    reading.harness.parts[index].strand[static_cast<std::size_t>(line)] = strand;
}

void read_gauge(const Member& member, Part& run, Reading& reading) {
    run.section_mm2 = member.number("section_mm2", run.section_mm2);
    if (!member.has("awg")) return;
    run.section_mm2 = awg_section_mm2(member.number("awg", 20));
    if (!member.has("section_mm2")) return;
    reading.findings.error(
        "two-sections", member["awg"].pointer(),
        {"both \"section_mm2\" and \"awg\" are given", "one of the two", "", "delete one of them"});
}

void check_lines_alike(const Member& member, const Part& run, Reading& reading) {
    const auto& high = run.strand[0];
    const auto& low = run.strand[1];
    if (!high || !low || high->colour.base.empty() || !(high->colour == low->colour)) return;
    reading.findings.warning("lines-alike", member["l"].pointer(),
                             {"both lines of " + run.id + " are " + in_words(high->colour),
                              "colours that tell the lines apart", "", "check the drawing"});
}

}  // namespace

void read_runs(Reading& reading) {
    for (Index index = 0; index < reading.harness.parts.size(); ++index) {
        Part& run = reading.harness.parts[index];
        if (run.kind != PartKind::Run) continue;
        const Member member = reading.part_members[index];
        run.length_m = member.number("length_m", 0);
        run.twisted = member.flag("twisted", true);
        read_gauge(member, run, reading);
        if (!member.has("h") && !member.has("l") && member.is_object()) {
            reading.wiring_sound = false;
            reading.findings.error(
                "missing-member", member.pointer(),
                {"a run without wires", "\"h\", \"l\" or both", "", "say from where to where it goes"});
        }
        read_strand(member["h"], index, Line::High, reading);
        if (lines_of(reading.harness, run.network).size() == 1) {
            if (member.has("l")) say_second_line(member["l"], run.network, reading);
            continue;
        }
        read_strand(member["l"], index, Line::Low, reading);
        check_lines_alike(member, run, reading);
    }
}

}  // namespace halfsplit::harness
