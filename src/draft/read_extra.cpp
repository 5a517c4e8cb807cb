// Lines about what is named already: other circuits' wires, bridge plugs, names and notes.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/parts.hpp"

#include <algorithm>

namespace halfsplit::draft {

namespace {

void say_shape(const SheetLine& line, const char* example, Sheet& sheet) {
    sheet.error(
        "sheet-missing", line.words.front().at,
        {fmt::format("this \"{}\" line is not whole", line.words.front().text), example, "", "complete it"});
}

const Thing* known_thing(const Word& word, const std::string& id, Sheet& sheet) {
    const Thing* thing = sheet.document.find(id);
    if (thing == nullptr) {
        sheet.error(
            "sheet-name", word.at,
            {fmt::format("nothing is named \"{}\" so far", id), "a thing of the lines above",
             nearest_name(id, sheet.document.thing_ids()), "correct the name, or move this line down"});
    }
    return thing;
}

struct Half {
    std::string pointer;
    char half = 0;
};

// "X1 X4.b 9 ...": the connectors in front, a half each or both.
std::vector<Half> halves_in(Cursor& cursor, Sheet& sheet) {
    std::vector<Half> halves;
    while (cursor.more()) {
        const Word& word = cursor.word();
        const auto [id, half] = split_half(word.text);
        const bool number = id.find_first_not_of("0123456789") == std::string::npos;
        if (number || (!halves.empty() && sheet.document.find(id) == nullptr)) break;
        cursor.step();
        const Thing* thing = known_thing(word, id, sheet);
        if (thing == nullptr) continue;
        if (thing->kind != Kind::Connector) {
            sheet.error("sheet-word", word.at,
                        {thing->id + " is no connector", "X1, X1.a or X1.b", "", "name a connector"});
            continue;
        }
        if (half != 'b') halves.push_back({thing->pointer, 'a'});
        if (half != 'a') halves.push_back({thing->pointer, 'b'});
    }
    return halves;
}

// "9 buye cab speaker +".
void add_circuit(const Word& part, const std::vector<Half>& halves, Sheet& sheet) {
    const std::size_t first = part.text.find(' ');
    const std::size_t second = first == std::string::npos ? first : part.text.find(' ', first + 1);
    if (second == std::string::npos) {
        sheet.error("sheet-missing", part.at,
                    {fmt::format("\"{}\" is no cavity, colour and circuit", part.text), "9 buye cab speaker",
                     "", "write all three; ? for a colour that is not stated"});
        return;
    }
    const std::string cavity = part.text.substr(0, first);
    const auto colour = read_colour(part.text.substr(first + 1, second - first - 1));
    if (!colour) {
        sheet.error(
            "unknown-colour", {part.at.line, part.at.column + first + 1},
            {fmt::format("\"{}\" is no colour", part.text.substr(first + 1, second - first - 1)),
             "base, then stripe, such as buye; ? where not stated", "", "write the codes of IEC 60757"});
        return;
    }
    for (const Half& half : halves) {
        Json& list = sheet.document.at(half.pointer)["other_wires"];
        const std::string pointer = fmt::format("{}/other_wires/{}", half.pointer, list.size());
        Json wire{{"half", std::string(1, half.half)},
                  {"cavity", cavity},
                  {"circuit", part.text.substr(second + 1)}};
        if (!colour->base.empty()) wire["colour"]["base"] = colour->base;
        if (!colour->stripe.empty()) wire["colour"]["stripe"] = colour->stripe;
        sheet.document.place(pointer, part.at);
        list.push_back(std::move(wire));
    }
}

void read_other(const SheetLine& line, Sheet& sheet) {
    Cursor cursor(line, 1);
    const std::vector<Half> halves = halves_in(cursor, sheet);
    if (!cursor.any()) return say_shape(line, "other X1.a 9 buye cab speaker; 10 bubk cab speaker", sheet);
    const std::size_t start = cursor.word().at.column - line.rest.at.column;
    Word circuits = line.rest;
    // Columns count characters; ids and blanks before are plain.
    circuits.text = circuits.text.substr(std::min(start, circuits.text.size()));
    circuits.at = cursor.word().at;
    for (const Word& part : split_text(circuits, ';')) {
        if (!part.text.empty()) add_circuit(part, halves, sheet);
    }
}

// "plug BP3 on X7.a 1/2 3/4 for rear_air".
void read_plug(const SheetLine& line, Sheet& sheet) {
    if (sheet.buses.empty() || line.words.size() < 6)
        return say_shape(line, "plug BP3 on X7.a 1/2 3/4 for rear_air", sheet);
    const Word& seat = line.words[3];
    const auto [id, half] = split_half(seat.text);
    const Thing* known = known_thing(seat, id, sheet);
    if (known == nullptr) return;
    const Thing host = *known;
    Bus& bus = sheet.bus();
    const Stand before = bus.chain.carried().stand;
    SheetLine rest = line;
    rest.words.erase(rest.words.begin() + 2, rest.words.begin() + 4);  // "on", and the seat
    Cursor cursor(rest, 0);
    const ThingWords words = read_thing_words(cursor, sheet);
    if (words.pairs.size() != 2 || !words.stands_in_for) {
        bus.chain.carried().stand = before;
        return say_shape(line, "plug BP3 on X7.a 1/2 3/4 for rear_air", sheet);
    }
    if (!usable_id({words.id, words.at}, sheet)) return;
    const Thing thing = sheet.document.add_thing(Kind::Plug, words.id, words.at);
    Json& plug = sheet.document.at(thing.pointer);
    plug["network"] = bus.id;
    plug["stands_in_for"] = words.stands_in_for->text;
    plug["at"] = half == 0 ? host.id : fmt::format("{}.{}", host.id, half);
    plug["in"] = pins(words.pairs[0].pair, bus.single);
    plug["out"] = pins(words.pairs[1].pair, bus.single);
    const bool minutes = words.qualities.minutes.probe || words.qualities.minutes.look;
    if (words.placed || minutes) {
        const Stand stand =
            words.placed ? bus.chain.carried().stand : stand_of(sheet.document.at(host.pointer), half);
        plug["access"] = access_to_json(stand, words.qualities.minutes);
    }
    put_qualities(plug, words.qualities);
    bus.chain.carried().stand = before;
    sheet.document.place(thing.pointer + "/stands_in_for", words.stands_in_for->at);
    sheet.document.place(thing.pointer + "/at", seat.at);
    sheet.document.place(thing.pointer + "/in", words.pairs[0].at);
    sheet.document.place(thing.pointer + "/out", words.pairs[1].at);
    if (line.text) give_names(*line.text, thing, sheet);
}

// "name B1, words" and "note B1, words".
void read_words_for(const SheetLine& line, Sheet& sheet) {
    const std::string member = lower(line.words.front().text);
    if (line.words.size() != 2 || !line.text) {
        return say_shape(line, member == "name" ? "name B1, what it is" : "note X1, what to know about it",
                         sheet);
    }
    const Word& word = line.words[1];
    const auto wire = sheet.wires.find(word.text);
    std::string pointer = wire == sheet.wires.end() ? "" : wire->second;
    if (pointer.empty()) {
        const Thing* thing = known_thing(word, word.text, sheet);
        if (thing == nullptr) return;
        pointer = thing->pointer;
    }
    sheet.document.at(pointer)[member] = line.text->text;
    sheet.document.place(pointer + "/" + member, line.text->at);
}

}  // namespace

bool read_extra_line(const SheetLine& line, Sheet& sheet) {
    const std::string word = lower(line.words.front().text);
    const bool seated = line.words.size() > 2 && lower(line.words[2].text) == "on";
    if (word == "other") {
        read_other(line, sheet);
    } else if (word == "plug" && seated) {
        read_plug(line, sheet);
    } else if ((word == "name" || word == "note") && line.words.size() < 3) {
        read_words_for(line, sheet);
    } else {
        return false;
    }
    return true;
}

}  // namespace halfsplit::draft
