#include "draft/parts.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace halfsplit::draft {

namespace {

// A letter of the trade and a number: X1, T2.
bool lettered(const std::string& id, char letter) {
    if (id.size() < 2 || std::toupper(static_cast<unsigned char>(id[0])) != letter) return false;
    return std::all_of(id.begin() + 1, id.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::size_t most_pairs(Kind kind) {
    if (kind == Kind::Splice) return 0;
    return kind == Kind::Module || kind == Kind::Plug ? 2 : 1;
}

void place_pins(const std::string& pointer, const At& at, const Pair& pair, Sheet& sheet) {
    sheet.document.place(pointer + "/h", at);
    sheet.document.place(pointer + "/l", {at.line, at.column + display_width(pair[0]) + 1});
}

Json numbered_face(const FaceSize& size) {
    Json face{{"rows", size.rows}, {"columns", size.columns}};
    for (std::size_t i = 1; i <= size.rows * size.columns; ++i) face["cavities"].push_back(std::to_string(i));
    return face;
}

Minutes with_usual(Minutes minutes, const Minutes& usual) {
    if (!minutes.probe) minutes.probe = usual.probe;
    if (!minutes.look) minutes.look = usual.look;
    return minutes;
}

void put_halves(Json& connector, const ThingWords& words, const Minutes& usual) {
    for (std::size_t half = 0; half < 2; ++half) {
        if (!words.half_stand[half]) continue;
        connector["halves"][half == 0 ? "a" : "b"]["access"] =
            access_to_json(*words.half_stand[half], with_usual(words.half_minutes[half], usual));
    }
}

void put_access(Json& part, const ThingWords& words, Kind kind, Sheet& sheet) {
    const Minutes usual = sheet.usual_minutes[kind];
    const Stand& stand = sheet.bus().chain.carried().stand;
    if (stand.place.empty()) sheet.missing("place", words.id);
    part["access"] = access_to_json(stand, with_usual(words.qualities.minutes, usual));
    if (kind == Kind::Connector) put_halves(part, words, usual);
}

void say_idle(const At& at, const std::string& what, const std::string& of, Sheet& sheet) {
    sheet.error(
        "sheet-word", at,
        {what + " has no meaning at " + of, "", "", "delete it, or say what " + of + " is: module " + of});
}

void put_purpose(Json& plug, const ThingWords& words, const std::string& pointer, Sheet& sheet) {
    if (!words.stands_in_for) {
        sheet.error("sheet-missing", words.at,
                    {"what the bridge plug " + words.id + " stands in for is not said",
                     "a module or an option: plug " + words.id + " 1/2 3/4 for LIFT", "", "write it"});
        return;
    }
    plug["stands_in_for"] = words.stands_in_for->text;
    sheet.document.place(pointer + "/stands_in_for", words.stands_in_for->at);
}

}  // namespace

KindGuess guess_kind(const ThingWords& words) {
    if (words.kind) return {*words.kind, ""};
    const bool connector_like = words.half != 0 || words.face || words.half_stand[0] || words.half_stand[1];
    if (connector_like) return {Kind::Connector, ""};
    if (!words.ground.empty() || !words.supply.empty()) return {Kind::Socket, ""};
    if (words.pairs.size() == 2 || !words.terminator.empty() || words.load) return {Kind::Module, ""};
    if (lettered(words.id, 'X')) return {Kind::Connector, "connector"};
    if (lettered(words.id, 'T') && !words.pairs.empty()) return {Kind::Terminator, "terminator"};
    if (lower(words.id) == "ds") return {Kind::Socket, "socket"};
    return words.pairs.empty() ? KindGuess{Kind::Splice, ""} : KindGuess{Kind::Module, "module"};
}

// Notes what was guessed.
Kind noted_kind(const ThingWords& words, Sheet& sheet) {
    const KindGuess guess = guess_kind(words);
    if (*guess.note != 0) sheet.missing(guess.note, words.id);
    return guess.kind;
}

std::string name_of(Kind kind) {
    return kind == Kind::Plug ? "bridge plug" : kind_word(kind);
}

bool pairs_fit(const ThingWords& words, Kind kind, Sheet& sheet) {
    const std::size_t most = most_pairs(kind);
    const std::size_t least = kind == Kind::Plug ? 2 : std::min<std::size_t>(most, 1);
    const std::size_t count = words.pairs.size();
    const char* one = sheet.bus().single ? "4" : "4/5";
    if (count < least) {
        sheet.error("sheet-missing", words.at,
                    {fmt::format("which cavities of {} is not said", words.id),
                     kind == Kind::Plug ? fmt::format("two of them, such as {} {} {}", words.id, one,
                                                      sheet.bus().single ? "9" : "9/10")
                                        : fmt::format("{} {}", words.id, one),
                     "", "write the cavities behind the name"});
        return false;
    }
    if (count <= most) return true;
    sheet.error("sheet-word", words.pairs[most].at,
                {fmt::format("cavities of {}, which is taken for a {}", words.id, name_of(kind)),
                 most == 0 ? "a splice has no cavities"
                           : "one pair of cavities, the same on both halves of a connector",
                 "", "delete them, or say what it is: module " + words.id});
    return false;
}

Json pins(const Pair& pair, bool single) {
    Json result{{"h", pair[0]}};
    if (!single) result["l"] = pair[1];
    return result;
}

// A module's connection to this bus.
void add_bus(const ThingWords& words, const Thing& thing, Sheet& sheet) {
    const Bus& bus = sheet.bus();
    Json& module = sheet.document.at(thing.pointer);
    const std::string pointer = fmt::format("{}/buses/{}", thing.pointer, module["buses"].size());
    Json entry{{"network", bus.id}, {"attach", words.pairs.size() == 2 ? "loop" : "spur"}};
    if (words.pairs.size() == 2) {
        entry["in"] = pins(words.pairs[0].pair, bus.single);
        entry["out"] = pins(words.pairs[1].pair, bus.single);
        place_pins(pointer + "/in", words.pairs[0].at, words.pairs[0].pair, sheet);
        place_pins(pointer + "/out", words.pairs[1].at, words.pairs[1].pair, sheet);
    } else {
        entry["pins"] = pins(words.pairs[0].pair, bus.single);
        place_pins(pointer + "/pins", words.pairs[0].at, words.pairs[0].pair, sheet);
    }
    if (!words.terminator.empty()) entry["terminator"] = words.terminator;
    if (words.ohm) entry["terminator_ohm"] = number_to_json(*words.ohm);
    if (words.load) entry["load_ohm"] = number_to_json(*words.load);
    sheet.document.place(pointer, words.at);
    module["buses"].push_back(std::move(entry));
}

void add_port(const ThingWords& words, const Thing& thing, Sheet& sheet) {
    Json& socket = sheet.document.at(thing.pointer);
    const std::string pointer = fmt::format("{}/ports/{}", thing.pointer, socket["ports"].size());
    Json port{{"network", sheet.bus().id}};
    port.update(pins(words.pairs[0].pair, sheet.bus().single));
    place_pins(pointer, words.pairs[0].at, words.pairs[0].pair, sheet);
    sheet.document.place(pointer, words.at);
    socket["ports"].push_back(std::move(port));
    if (!words.ground.empty()) socket["ground"] = words.ground;
    if (!words.supply.empty()) socket["supply"] = words.supply;
}

// Words that fit another kind of thing only.
void check_words(const ThingWords& words, Kind kind, Sheet& sheet) {
    const std::string of = "a " + name_of(kind);
    if (words.face && kind != Kind::Connector) say_idle(words.face_at, "a face", of, sheet);
    if (!words.terminator.empty() && kind != Kind::Module)
        say_idle(words.terminator_at, "a terminator inside", of, sheet);
    if (words.ohm && kind != Kind::Module && kind != Kind::Terminator)
        say_idle(words.ohm_at, "a resistance", of, sheet);
    if (words.half != 0 && kind != Kind::Connector) say_idle(words.at, "a half", of, sheet);
}

Thing make_thing(const ThingWords& words, Kind kind, Sheet& sheet) {
    Thing thing = sheet.document.add_thing(kind, words.id, words.at);
    Json& part = sheet.document.at(thing.pointer);
    const Bus& bus = sheet.bus();
    if (kind == Kind::Splice || kind == Kind::Terminator || kind == Kind::Plug) part["network"] = bus.id;
    if (kind == Kind::Plug) put_purpose(part, words, thing.pointer, sheet);
    if (kind == Kind::Terminator) {
        part["pins"] = pins(words.pairs[0].pair, bus.single);
        place_pins(thing.pointer + "/pins", words.pairs[0].at, words.pairs[0].pair, sheet);
        if (words.ohm) part["ohm"] = number_to_json(*words.ohm);
    }
    if (kind == Kind::Plug) {
        part["in"] = pins(words.pairs[0].pair, bus.single);
        part["out"] = pins(words.pairs[1].pair, bus.single);
        place_pins(thing.pointer + "/in", words.pairs[0].at, words.pairs[0].pair, sheet);
        place_pins(thing.pointer + "/out", words.pairs[1].at, words.pairs[1].pair, sheet);
    }
    put_access(part, words, kind, sheet);
    put_qualities(part, words.qualities);
    if (words.face) {
        part["face"] = numbered_face(*words.face);
        sheet.document.place(thing.pointer + "/face", words.face_at);
    }
    return thing;
}

void give_names(const Word& text, const Thing& thing, Sheet& sheet) {
    Json& part = sheet.document.at(thing.pointer);
    const std::vector<Word> fields = split_text(text, ',');
    if (thing.kind != Kind::Connector || fields.size() != 3) {
        if (!text.text.empty()) part["name"] = text.text;
        return;
    }
    if (!fields[0].text.empty()) part["name"] = fields[0].text;
    if (!fields[1].text.empty()) part["halves"]["a"]["name"] = fields[1].text;
    if (!fields[2].text.empty()) part["halves"]["b"]["name"] = fields[2].text;
}

void put_qualities(Json& part, const Qualities& qualities) {
    if (!qualities.fitted.is_null()) part["fitted"] = qualities.fitted;
    if (!qualities.marks.empty()) part["marks"] = qualities.marks;
    if (qualities.weight) part["weight"] = number_to_json(*qualities.weight);
}

}  // namespace halfsplit::draft
