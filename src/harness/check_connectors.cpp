// Lines that change on their way through a connector, and wires that end where nothing goes on.
#include "harness/reading.hpp"

#include <set>
#include <string>

namespace halfsplit::harness {

namespace {

void check_crossing(Index terminal, Index mate, Reading& reading) {
    const Harness& harness = reading.harness;
    const Terminal& a = harness.terminals[terminal];
    const Terminal& b = harness.terminals[mate];
    if (a.network == none || b.network == none || (a.network == b.network && a.line == b.line)) return;
    reading.wiring_sound = false;
    const Terminals::Use& use = reading.terminals.use(mate);
    const Terminals::Use& other_use = reading.terminals.use(terminal);
    reading.findings.error(
        "line-crossed", use.wired_at.empty() ? use.declared_at : use.wired_at,
        {terminal_name(harness, mate) + " is " + line_in_words(harness, b.network, b.line) +
             ", but the cavity that mates with it is " + line_in_words(harness, a.network, a.line),
         "one line on both sides", "", "exchange the two wires, or correct the cavity",
         other_use.wired_at.empty() ? other_use.declared_at : other_use.wired_at});
}

// Whether anything goes on from a wire that ends in this cavity.
bool goes_on(Index terminal, Index mate, const Reading& reading) {
    if (reading.terminals.use(terminal).declared) return true;  // a bridge plug sits here
    if (mate == none) return false;
    const Terminals::Use& use = reading.terminals.use(mate);
    return use.wires > 0 || use.declared;
}

// "/runs/3/h/to" and "/runs/3/l/to" alike.
std::string end_of_pair(std::string pointer) {
    const std::size_t line = pointer.rfind('/') - 1;
    pointer[line] = '*';
    return pointer;
}

void say_loose(Index terminal, Reading& reading) {
    const Terminal& it = reading.harness.terminals[terminal];
    const std::string mate = reading.harness.parts[it.part].id + (it.half == 'a' ? ".b:" : ".a:") + it.cavity;
    reading.findings.warning(
        "loose-end", reading.terminals.use(terminal).wired_at,
        {"nothing goes on from here: no wire ends at " + mate, "a wire on both sides, or a plug", "",
         "correct the cavity, or add what goes on"});
}

void check_splice(const Part& splice, Reading& reading) {
    const std::size_t high = reading.terminals.use(splice.in.terminal[0]).wires;
    const bool single = splice.in.terminal[1] == none;
    const std::size_t low = single ? high : reading.terminals.use(splice.in.terminal[1]).wires;
    const bool nothing = high == 0 && low == 0;
    if (!nothing && high != 1 && low != 1) return;
    reading.findings.warning(
        "loose-end", splice.pointer,
        {nothing ? "no wire ends at " + splice.id : "only one wire ends at " + splice.id,
         "two wires of a line or more", "", "add the wires that are missing, or delete the splice"});
}

void check_crossings(Reading& reading) {
    for (Index terminal = 0; terminal < reading.harness.terminals.size(); ++terminal) {
        if (reading.harness.terminals[terminal].half != 'a') continue;
        const Index mate = reading.terminals.mate(reading.harness, terminal);
        if (mate != none) check_crossing(terminal, mate, reading);
    }
}

void check_loose_ends(Reading& reading) {
    std::set<std::string> told;  // one finding for the two lines of a pair
    for (Index terminal = 0; terminal < reading.harness.terminals.size(); ++terminal) {
        const Terminal& it = reading.harness.terminals[terminal];
        if (it.half == 0 || it.network == none || reading.terminals.use(terminal).wires == 0) continue;
        if (goes_on(terminal, reading.terminals.mate(reading.harness, terminal), reading)) continue;
        if (told.insert(end_of_pair(reading.terminals.use(terminal).wired_at)).second)
            say_loose(terminal, reading);
    }
    for (const Part& part : reading.harness.parts) {
        if (part.kind == PartKind::Splice) check_splice(part, reading);
    }
}

}  // namespace

void check_connectors(Reading& reading) {
    check_crossings(reading);
    if (reading.wiring_sound) check_loose_ends(reading);
}

}  // namespace halfsplit::harness
