#include "draft/things.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/parts.hpp"

#include <algorithm>

namespace halfsplit::draft {

namespace {

char other_half(char half) {
    return half == 'a' ? 'b' : 'a';
}

bool known_pair(const ThingWords& words, const std::string& id, Sheet& sheet) {
    const Pair& pair = words.pairs[0].pair;
    const auto& pairs = sheet.bus().pairs[id];
    const bool known = std::any_of(pairs.begin(), pairs.end(), [&](const auto& entry) {
        return entry[1] == pair[0] && entry[2] == pair[1];
    });
    if (known) return true;
    std::vector<std::string> names;
    for (const auto& entry : pairs)
        names.push_back(sheet.bus().single ? entry[1] : entry[1] + "/" + entry[2]);
    sheet.error("sheet-again", words.pairs[0].at,
                {fmt::format("{} has {} on this bus, as named before", id, join_words(names)), "one of these",
                 "", "correct the cavities, or the name of the thing"});
    return false;
}

// What can be said of a thing that is known: how the pair meets it, and nothing new about it.
bool may_be_met_again(const ThingWords& words, const Thing& thing, Sheet& sheet) {
    if (words.kind && *words.kind != thing.kind) {
        sheet.error("sheet-again", words.at,
                    {fmt::format("{} is a {} already", thing.id, name_of(thing.kind)),
                     "one thing for each name", "", "rename one of the two"});
        return false;
    }
    if (!words.qualities.marks.empty() || words.qualities.weight || words.face || words.half_stand[0] ||
        words.half_stand[1]) {
        sheet.error("sheet-again", words.at,
                    {fmt::format("{} was described further up", thing.id),
                     "marks, faces and places at its first mention", "",
                     "move them there; for another thing take another name"});
        return false;
    }
    return true;
}

Meeting meet_connector(const ThingWords& words, const std::string& id, bool as_start) {
    const Pair& pair = words.pairs[0].pair;
    // Where the pair begins, the half named is the one that it leaves by.
    const char named = words.half != 0 ? words.half : as_start ? 'b' : 'a';
    const char in = as_start ? other_half(named) : named;
    return {{id, in, pair}, End{id, other_half(in), pair}, false, true};
}

Meeting meet_through(const ThingWords& words, const std::string& id, bool as_start) {
    Meeting meeting{{id, 0, words.pairs[0].pair}, std::nullopt, false, true};
    if (words.pairs.size() == 2) meeting.out = End{id, 0, words.pairs[1].pair};
    if (!meeting.out && as_start) meeting.out = meeting.in;
    return meeting;
}

const Pair splice_lines{"H", "L"};

void remember_pairs(const ThingWords& words, const std::string& id, Sheet& sheet) {
    for (const Cavities& cavities : words.pairs)
        sheet.bus().pairs[id].push_back(
            {std::string(1, words.half == 0 ? '-' : words.half), cavities.pair[0], cavities.pair[1]});
}

void extend(const ThingWords& words, const Thing& thing, Sheet& sheet) {
    if (thing.kind == Kind::Module) add_bus(words, thing, sheet);
    if (thing.kind == Kind::Socket) add_port(words, thing, sheet);
    remember_pairs(words, thing.id, sheet);
}

// The words again as they would be for a thing of that kind; a plug at a module is one more part.
void add_plug_here(const ThingWords& words, const Thing& host, const Meeting& meeting, Sheet& sheet) {
    if (!words.plug) return;
    if (!usable_id(*words.plug, sheet)) return;
    Json plug{{"id", words.plug->text}, {"network", sheet.bus().id}};
    Pair in, out;
    if (host.kind == Kind::Module && meeting.out) {
        plug["stands_in_for"] = words.stands_in_for ? words.stands_in_for->text : host.id;
        plug["at"] = host.id;
        in = words.pairs[0].pair;
        out = words.pairs[1].pair;
    } else if (host.kind == Kind::Connector && words.stands_in_for &&
               sheet.bus().pairs[host.id].size() == 2) {
        plug["stands_in_for"] = words.stands_in_for->text;
        plug["at"] = fmt::format("{}.{}", host.id, meeting.out->half);
        const auto& first = sheet.bus().pairs[host.id].front();
        in = {first[1], first[2]};
        out = meeting.out->pair;
    } else {
        sheet.error(
            "sheet-word", words.plug->at,
            {"where the bridge plug " + words.plug->text + " sits is not clear",
             "behind a module with two pairs; or behind a connector where the pair comes back, with \"for\"",
             "", "write a line of its own: plug " + words.plug->text + " on X7.a 1/2 3/4 for LIFT"});
        return;
    }
    const Thing thing = sheet.document.add_thing(Kind::Plug, words.plug->text, words.plug->at);
    plug["in"] = pins(in, sheet.bus().single);
    plug["out"] = pins(out, sheet.bus().single);
    const At at = words.stands_in_for ? words.stands_in_for->at : words.plug->at;
    sheet.document.place(thing.pointer + "/stands_in_for", at);
    sheet.document.at(thing.pointer) = std::move(plug);
}

void set_clip(const ThingWords& words, const Meeting& meeting, Sheet& sheet) {
    if (!words.clip) return;
    const std::string pointer = fmt::format("/networks/{}", sheet.buses.size() - 1);
    sheet.document.at(pointer)["clip"] = point_of(meeting.in, sheet.bus().single);
    sheet.document.place(pointer + "/clip", words.at);
}

Meeting meeting_of(const ThingWords& words, const Thing& thing, bool as_start) {
    if (thing.kind == Kind::Splice) {
        const End end{thing.id, 0, splice_lines};
        return {end, end, true, true};
    }
    if (thing.kind == Kind::Connector) return meet_connector(words, thing.id, as_start);
    return meet_through(words, thing.id, as_start);
}

Meeting unsound() {
    Meeting meeting;
    meeting.sound = false;
    return meeting;
}

Meeting meet_new(const ThingWords& words, const SheetLine& line, bool as_start, Sheet& sheet) {
    if (!usable_id({words.id, words.at}, sheet)) return unsound();
    const Kind kind = noted_kind(words, sheet);
    check_words(words, kind, sheet);
    if (!pairs_fit(words, kind, sheet)) return unsound();
    const Thing thing = make_thing(words, kind, sheet);
    sheet.last_thing = thing.id;
    extend(words, thing, sheet);
    if (line.text) give_names(*line.text, thing, sheet);
    Meeting meeting = meeting_of(words, thing, as_start);
    add_plug_here(words, thing, meeting, sheet);
    set_clip(words, meeting, sheet);
    Carried& carried = sheet.bus().chain.carried();
    if (meeting.out && meeting.out->half != 0) {
        const auto& stand = words.half_stand[meeting.out->half == 'b' ? 1 : 0];
        if (stand) carried.stand = *stand;
    }
    return meeting;
}

Meeting meet_again(const ThingWords& words, const Thing& thing, const SheetLine& line, bool as_start,
                   Sheet& sheet) {
    if (!may_be_met_again(words, thing, sheet) || !pairs_fit(words, thing.kind, sheet)) return unsound();
    Bus& bus = sheet.bus();
    Meeting meeting = meeting_of(words, thing, as_start);
    const bool fresh = bus.pairs.find(thing.id) == bus.pairs.end();
    const bool joins = thing.kind == Kind::Connector ||
                       (fresh && thing.kind != Kind::Terminator && thing.kind != Kind::Plug);
    if (thing.kind != Kind::Splice) {
        if (joins) {
            extend(words, thing, sheet);
        } else if (!known_pair(words, thing.id, sheet)) {
            return unsound();
        } else if (!as_start) {
            meeting.out.reset();
        }
    }
    if (line.text) give_names(*line.text, thing, sheet);
    add_plug_here(words, thing, meeting, sheet);
    set_clip(words, meeting, sheet);
    if (!words.placed) {
        const char half = meeting.out ? meeting.out->half : meeting.in.half;
        bus.chain.carried().stand = stand_of(sheet.document.at(thing.pointer), half);
    }
    return meeting;
}

}  // namespace

Meeting meet(const ThingWords& words, const SheetLine& line, bool as_start, Sheet& sheet) {
    const Thing* known = sheet.document.find(words.id);
    if (known == nullptr) return meet_new(words, line, as_start, sheet);
    const Thing thing = *known;
    sheet.last_thing = thing.id;
    return meet_again(words, thing, line, as_start, sheet);
}

std::string terminal_of(const End& end, std::size_t line) {
    const std::string part = end.half == 0 ? end.part : fmt::format("{}.{}", end.part, end.half);
    return part + ":" + end.pair[line];
}

std::string point_of(const End& end, bool single) {
    return single ? terminal_of(end, 0) : terminal_of(end, 0) + "/" + end.pair[1];
}

}  // namespace halfsplit::draft
