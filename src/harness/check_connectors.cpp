// Lines that change on their way through a connector, and wires that end where nothing goes on.
#include "halfsplit/base/text.hpp"

#include "harness/reading.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string>
#include <utility>

namespace halfsplit::harness {

namespace {

std::string place_of(Index terminal, Reading& reading) {
    const Terminals::Use& use = reading.terminals.use(terminal);
    return use.wired_at.empty() ? use.declared_at : use.wired_at;
}

void check_crossing(Index terminal, Index mate, Reading& reading) {
    const Harness& harness = reading.harness;
    const Terminal& a = harness.terminals[terminal];
    const Terminal& b = harness.terminals[mate];
    if (a.network == none || b.network == none || (a.network == b.network && a.line == b.line)) return;
    reading.wiring_sound = false;
    reading.findings.error(
        "line-crossed", place_of(mate, reading),
        {terminal_name(harness, mate) + " is " + line_in_words(harness, b.network, b.line) +
             ", but the cavity that mates with it is " + line_in_words(harness, a.network, a.line),
         "one line on both sides", "", "exchange the two wires, or correct the cavity",
         place_of(terminal, reading)});
}

// What of one network has, in one connector, nothing of its own line opposite: by half (a, b) and line.
struct Displaced {
    std::array<std::array<std::vector<Index>, 2>, 2> terminals;

    // As many on the one side as on the other, at most one of each line: they are meant for one another.
    bool belong_together() const {
        const auto& [a, b] = terminals;
        const bool even = a[0].size() == b[0].size() && a[1].size() == b[1].size();
        return even && a[0].size() <= 1 && a[1].size() <= 1 && a[0].size() + a[1].size() > 0;
    }
};

// "4 (H) and 5 (L)"
std::string cavities(const Harness& harness, const std::array<std::vector<Index>, 2>& lines) {
    std::vector<std::string> words;
    for (const Line line : both_lines) {
        for (const Index terminal : lines[static_cast<std::size_t>(line)])
            words.push_back(harness.terminals[terminal].cavity + (line == Line::High ? " (H)" : " (L)"));
    }
    return join_words(words);
}

class Seats {
  public:
    explicit Seats(Reading& reading) : reading_(reading) {}

    void check() {
        const std::size_t count = reading_.harness.terminals.size();
        for (Index terminal = 0; terminal < count; ++terminal) enter(terminal);
        for (const auto& [where, displaced] : displaced_) {
            if (displaced.belong_together()) say(where.first, where.second, displaced);
        }
        for (Index terminal = 0; terminal < count; ++terminal) {
            if (reading_.harness.terminals[terminal].half != 'a' || reading_.mates[terminal] == none)
                continue;
            const Index mate = reading_.mates[terminal];
            const bool told = told_.contains(terminal) && told_.contains(mate);
            if (!told) check_crossing(terminal, mate, reading_);
        }
    }

  private:
    void enter(Index terminal) {
        const Terminal& it = reading_.harness.terminals[terminal];
        const Terminals::Use& use = reading_.terminals.use(terminal);
        if (it.half == 0 || it.network == none || use.wires == 0 || use.declared) return;
        const Index mate = reading_.mates[terminal];
        if (mate != none) {
            const Terminal& other = reading_.harness.terminals[mate];
            if (reading_.terminals.use(mate).declared) return;
            if (other.network == it.network && other.line == it.line) return;
        }
        displaced_[{it.part, it.network}]
            .terminals[it.half == 'a' ? 0 : 1][static_cast<std::size_t>(it.line)]
            .push_back(terminal);
    }

    void say(Index part, Index network, const Displaced& displaced) {
        const Harness& harness = reading_.harness;
        const auto& [a, b] = displaced.terminals;
        for (const auto* side : {&a, &b}) {
            for (const auto& line : *side) told_.insert(line.begin(), line.end());
        }
        const bool pair = !a[0].empty() && !a[1].empty();
        const auto cavity = [&](Index terminal) { return harness.terminals[terminal].cavity; };
        const bool exchanged =
            pair && cavity(a[0][0]) == cavity(b[1][0]) && cavity(a[1][0]) == cavity(b[0][0]);
        const Index there = b[b[0].empty() ? 1 : 0].front(), here = a[a[0].empty() ? 1 : 0].front();
        const std::string& id = harness.parts[part].id;
        std::string what = exchanged ? "the two lines of " : pair ? "the pair of " : "a line of ";
        what += harness.networks[network].id + (exchanged ? " change places in " : " changes its seat in ");
        what += id + ": " + cavities(harness, a) + " on half a, " + cavities(harness, b) + " on half b";
        reading_.wiring_sound = false;
        if (exchanged) {
            reading_.findings.error("line-crossed", place_of(there, reading_),
                                    {std::move(what), "the same cavities on both halves", "",
                                     "exchange the two wires on one half", place_of(here, reading_)});
        } else {
            reading_.findings.error(
                "pair-shifted", place_of(there, reading_),
                {std::move(what), "the same cavities on both halves", "",
                 "count the cavities on both halves, and correct one", place_of(here, reading_)});
        }
    }

    Reading& reading_;
    std::map<std::pair<Index, Index>, Displaced> displaced_;  // by part and network
    std::set<Index> told_;
};

// Whether anything goes on from a wire that ends in this cavity.
bool goes_on(Index terminal, const Reading& reading) {
    if (reading.terminals.use(terminal).declared) return true;  // a bridge plug sits here
    const Index mate = reading.mates[terminal];
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

void check_loose_ends(Reading& reading) {
    std::set<std::string> told;  // one finding for the two lines of a pair
    for (Index terminal = 0; terminal < reading.harness.terminals.size(); ++terminal) {
        const Terminal& it = reading.harness.terminals[terminal];
        if (it.half == 0 || it.network == none || reading.terminals.use(terminal).wires == 0) continue;
        if (goes_on(terminal, reading)) continue;
        if (told.insert(end_of_pair(reading.terminals.use(terminal).wired_at)).second)
            say_loose(terminal, reading);
    }
    for (const Part& part : reading.harness.parts) {
        if (part.kind == PartKind::Splice) check_splice(part, reading);
    }
}

}  // namespace

void check_connectors(Reading& reading) {
    const std::size_t count = reading.harness.terminals.size();
    reading.mates.assign(count, none);
    for (Index terminal = 0; terminal < count; ++terminal)
        reading.mates[terminal] = reading.terminals.mate(reading.harness, terminal);
    Seats(reading).check();
    if (!reading.wiring_sound) return;
    check_loose_ends(reading);
    check_colours(reading);
}

}  // namespace halfsplit::harness
