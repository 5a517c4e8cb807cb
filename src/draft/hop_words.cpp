#include "draft/hop_words.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "harness/colours.hpp"
#include "harness/names.hpp"

#include <algorithm>

namespace halfsplit::draft {

namespace {

constexpr double longest_minutes = 1440;

const std::vector<std::string>& quality_words() {
    static const std::vector<std::string> all{"flexing", "wet",     "worked-on", "add-on", "unverified",
                                              "with",    "without", "absent",    "maybe",  "weight"};
    return all;
}

std::vector<std::string> with_qualities(std::vector<std::string> words) {
    words.insert(words.end(), quality_words().begin(), quality_words().end());
    return words;
}

// "driver/kick" behind the @; "/kick" keeps the place.
std::optional<Stand> read_stand(const Word& word, const Stand& before, Sheet& sheet) {
    const std::vector<Word> names = split_text(word, '/');
    Stand stand;
    stand.place = names.front().text.empty() ? before.place : name_in(sheet.places, names.front(), sheet);
    bool sound = !stand.place.empty();
    if (names.front().text.empty() && before.place.empty()) {
        sheet.error(
            "sheet-order", word.at,
            {"covers without a place, and none was named before", "@driver/kick", "", "name the place"});
    }
    for (std::size_t i = 1; i < names.size(); ++i) {
        if (names[i].text.empty()) continue;
        const std::string cover = name_in(sheet.covers, names[i], sheet);
        sound = sound && !cover.empty();
        if (!cover.empty()) stand.covers.push_back(cover);
    }
    return sound ? std::optional(stand) : std::nullopt;
}

// The word behind "@", "a@", "at": in the same word or the next. Empty where the word is nothing of the kind.
struct Spotted {
    char half = 0;
    Word names;
};

std::optional<Spotted> spot_at(Cursor& cursor) {
    const Word& word = cursor.word();
    const std::string plain = lower(word.text);
    Spotted spotted;
    std::size_t start = 0;
    if (plain.rfind("a@", 0) == 0 || plain.rfind("b@", 0) == 0) {
        spotted.half = plain[0];
        start = 2;
    } else if (plain.front() == '@') {
        start = 1;
    } else if (plain == "at" && cursor.more()) {
        start = 2;
    } else {
        return std::nullopt;
    }
    spotted.names = {word.text.substr(start), {word.at.line, word.at.column + start}};
    cursor.step();
    if (spotted.names.text.empty() && cursor.any()) {
        spotted.names = cursor.word();
        cursor.step();
    }
    return spotted;
}

bool minutes_in_range(const Minutes& minutes, const Word& word, Sheet& sheet) {
    for (const auto& figure : {minutes.probe, minutes.look}) {
        if (figure && !within(*figure, 0, longest_minutes, word, "minutes", sheet)) return false;
    }
    return true;
}

void say_incomplete(const Word& word, const char* example, Sheet& sheet) {
    sheet.error("sheet-missing", word.at,
                {fmt::format("something is missing behind \"{}\"", word.text), example, "", "write it"});
}

// "with lift no": whether this vehicle has it, where no line of its own says so.
void read_option_state(Cursor& cursor, const std::string& option, Sheet& sheet) {
    const Word& word = cursor.word();
    const std::string state = lower(word.text);
    if (state != "yes" && state != "no" && state != "?") return;
    cursor.step();
    if (option.empty()) return;
    const auto [entry, fresh] = sheet.option_states.emplace(option, Word{state, word.at});
    const bool declared =
        std::find(sheet.options.made.begin(), sheet.options.made.end(), option) == sheet.options.made.end();
    if (!declared && (fresh || entry->second.text == state)) return;
    sheet.error("sheet-again", word.at,
                {fmt::format("whether {} is fitted was said further up", option), "once for each option", "",
                 "delete it in one of the two places"});
}

bool read_quality(Cursor& cursor, Qualities& qualities, Sheet& sheet) {
    const Word word = cursor.word();
    const std::string plain = lower(word.text);
    if (const std::string mark = read_mark(word.text); !mark.empty()) {
        cursor.step();
        if (std::find(qualities.marks.begin(), qualities.marks.end(), mark) == qualities.marks.end())
            qualities.marks.push_back(mark);
        return true;
    }
    if (plain == "absent" || plain == "maybe") {
        cursor.step();
        qualities.fitted = plain == "absent" ? "no" : "unknown";
        return true;
    }
    if (plain != "with" && plain != "without" && plain != "weight") return false;
    cursor.step();
    if (!cursor.any()) {
        say_incomplete(word, plain == "weight" ? "weight 2" : "with lift", sheet);
        return true;
    }
    const Word value = cursor.word();
    cursor.step();
    if (plain == "weight") {
        qualities.weight = read_plain(value.text);
        if (!qualities.weight) {
            sheet.error("sheet-value", value.at,
                        {fmt::format("\"{}\" is no figure", value.text), "weight 2", "", "correct it"});
        } else {
            within(*qualities.weight, 0, 1000, value, "a weight", sheet);
        }
        return true;
    }
    const std::string option = name_in(sheet.options, value, sheet);
    if (cursor.any()) read_option_state(cursor, option, sheet);
    if (!option.empty()) qualities.fitted = {{plain == "with" ? "option" : "without_option", option}};
    return true;
}

void say_bad_colour(const Word& word, const std::string& text, Sheet& sheet) {
    sheet.error(
        "unknown-colour", word.at,
        {fmt::format("\"{}\" is no colour", text),
         fmt::format("base, then stripe, of {} (IEC 60757); H/L, such as buye/bubk; ? where not stated",
                     join(harness::colour_codes(), " ")),
         lower(harness::likely_colour_code(text)), "write the codes, or ? for a colour not stated"});
}

// "buye/bubk", or the one colour of a single line. Says whether the word was taken.
bool read_colours(const Word& word, WireWords& wire, Sheet& sheet) {
    Bus& bus = sheet.bus();
    auto& colour = bus.chain.carried().colour;
    if (bus.single) {
        const auto one = read_colour(word.text);
        if (!one || sheet.document.find(word.text) != nullptr) return false;
        colour[0] = *one;
        wire.colour_at[0] = word.at;
        return true;
    }
    if (word.text == "?") colour = {};
    if (word.text.find('/') == std::string::npos) return word.text == "?";
    const std::vector<Word> halves = split_text(word, '/');
    for (std::size_t line = 0; line < 2 && line < halves.size(); ++line) {
        if (const auto one = read_colour(halves[line].text)) {
            colour[line] = *one;
            wire.colour_at[line] = halves[line].at;
        } else {
            say_bad_colour(halves[line], halves[line].text, sheet);
        }
    }
    return true;
}

void set_length(double length, const Word& word, WireWords& wire, Sheet& sheet) {
    if (wire.length) {
        sheet.error("sheet-word", word.at,
                    {"a second length on this line", "one length, then what the wire leads to", "",
                     "where the thing's name is a number, write what it is before it: module " + word.text});
    } else if (within(length, 0, 1000, word, "a length in metres", sheet)) {
        wire.length = length;
        wire.length_at = word.at;
    }
}

bool gauge_in_range(const Json& gauge, const Word& word, Sheet& sheet) {
    if (gauge.contains("awg")) return within(gauge["awg"].get<double>(), 0, 40, word, "a wire gauge", sheet);
    return within(gauge["section_mm2"].get<double>(), 0.05, 120, word, "a section", sheet);
}

bool read_wire_word(Cursor& cursor, WireWords& wire, Sheet& sheet) {
    Carried& carried = sheet.bus().chain.carried();
    if (auto spotted = spot_at(cursor)) {
        if (const auto stand = read_stand(spotted->names, carried.stand, sheet)) carried.stand = *stand;
        return true;
    }
    if (read_quality(cursor, wire.qualities, sheet)) return true;
    const Word word = cursor.word();
    if (const auto minutes = read_minutes(word.text)) {
        if (minutes_in_range(*minutes, word, sheet)) wire.qualities.minutes = *minutes;
    } else if (const auto gauge = read_gauge(word.text)) {
        if (gauge_in_range(*gauge, word, sheet)) carried.gauge = *gauge;
        wire.gauge_at = word.at;
    } else if (lower(word.text) == "untwisted") {
        wire.untwisted = true;
    } else if (const auto length = read_length(word.text)) {
        set_length(*length, word, wire, sheet);
    } else if (!read_colours(word, wire, sheet)) {
        return false;
    }
    cursor.step();
    return true;
}

const std::vector<std::pair<std::string, Kind>>& kind_words() {
    static const std::vector<std::pair<std::string, Kind>> all{
        {"module", Kind::Module},         {"connector", Kind::Connector}, {"splice", Kind::Splice},
        {"terminator", Kind::Terminator}, {"plug", Kind::Plug},           {"socket", Kind::Socket}};
    return all;
}

// "term", "term-on", "term-off" and "load", "ground", "supply", "plug", "for", "clip".
bool read_thing_keyword(Cursor& cursor, ThingWords& thing, Sheet& sheet) {
    const Word word = cursor.word();
    const std::string plain = lower(word.text);
    if (plain == "term" || plain == "term-on" || plain == "term-off") {
        thing.terminator = plain == "term" ? "built-in" : plain == "term-on" ? "switched-on" : "switched-off";
        thing.terminator_at = word.at;
        cursor.step();
        return true;
    }
    if (plain == "clip") {
        thing.clip = true;
        cursor.step();
        return true;
    }
    const bool known =
        plain == "load" || plain == "ground" || plain == "supply" || plain == "plug" || plain == "for";
    if (!known) return false;
    cursor.step();
    if (!cursor.any()) {
        say_incomplete(word, plain == "load" ? "load 1.2" : "a name or a cavity", sheet);
        return true;
    }
    const Word value = cursor.word();
    cursor.step();
    if (plain == "ground") thing.ground = value.text;
    if (plain == "supply") thing.supply = value.text;
    if (plain == "plug") thing.plug = value;
    if (plain == "for") thing.stands_in_for = value;
    if (plain == "load") {
        const auto ohm = read_ohm(value.text);
        thing.load = ohm ? ohm : read_plain(value.text);
        if (!thing.load) {
            sheet.error(
                "sheet-value", value.at,
                {fmt::format("\"{}\" is no figure", value.text), "ohm, such as load 1.2", "", "correct it"});
        } else if (!within(*thing.load, 0.01, 1e7, value, "a load in ohm", sheet)) {
            thing.load.reset();
        }
    }
    return true;
}

void set_face(const FaceSize& face, const Word& word, ThingWords& thing, Sheet& sheet) {
    if (!within(static_cast<double>(face.rows), 1, 100, word, "rows", sheet)) return;
    if (!within(static_cast<double>(face.columns), 1, 100, word, "columns", sheet)) return;
    thing.face = face;
    thing.face_at = word.at;
}

// Behind the thing's name, at most two.
bool read_cavities(const Word& word, bool single, ThingWords& thing) {
    if (thing.pairs.size() == 2) return false;
    if (single) {
        if (!harness::is_name(word.text, true)) return false;
        thing.pairs.push_back({{word.text, ""}, word.at});
        return true;
    }
    const auto pair = read_pair(word.text);
    if (!pair) return false;
    thing.pairs.push_back({*pair, word.at});
    return true;
}

void say_unknown(const Cursor& cursor, const ThingWords& thing, Sheet& sheet) {
    const Word& word = cursor.word();
    static const std::vector<std::string> words =
        with_qualities({"term", "term-on", "term-off", "load", "ground", "supply", "plug", "for", "clip"});
    static const std::vector<std::string> before = with_qualities({"untwisted", "from"});
    const bool like_a_thing = cursor.more() && read_pair(cursor.word(1).text).has_value();
    const std::string meant = nearest_name(thing.id, before);
    if (!meant.empty() && (like_a_thing || thing.pairs.empty())) {
        sheet.error(
            "sheet-word", thing.at,
            {fmt::format("\"{}\" is no word about a wire, and was taken for what it leads to", thing.id),
             "length, colours, place, marks; then the thing", meant, "correct the word"});
        return;
    }
    sheet.error(
        "sheet-word", word.at,
        {fmt::format("\"{}\" has no meaning behind {}", word.text, thing.id),
         sheet.bus().single ? "a cavity, a place such as @rear/trim, minutes such as 2/4', marks"
                            : "cavities such as 4/5, a place such as @rear/trim, minutes such as 2/4', marks",
         nearest_name(word.text, words), "correct the word, or put words behind a comma"});
}

void read_thing_word(Cursor& cursor, ThingWords& thing, char& half, bool& first, Sheet& sheet) {
    Carried& carried = sheet.bus().chain.carried();
    if (auto spotted = spot_at(cursor)) {
        half = spotted->half;
        const auto stand = read_stand(spotted->names, carried.stand, sheet);
        if (!stand) return;
        if (half == 0) {
            carried.stand = *stand;
            thing.placed = true;
        } else {
            thing.half_stand[half == 'b' ? 1 : 0] = *stand;
        }
        return;
    }
    const bool cavities_may_follow = first;
    first = false;
    if (read_quality(cursor, thing.qualities, sheet) || read_thing_keyword(cursor, thing, sheet)) return;
    const Word word = cursor.word();
    if (const auto minutes = read_minutes(word.text)) {
        if (minutes_in_range(*minutes, word, sheet))
            (half == 0 ? thing.qualities.minutes : thing.half_minutes[half == 'b' ? 1 : 0]) = *minutes;
    } else if (const auto face = read_face(word.text)) {
        set_face(*face, word, thing, sheet);
    } else if (const auto ohm = read_ohm(word.text)) {
        if (within(*ohm, 1, 100'000, word, "a terminator in ohm", sheet)) thing.ohm = ohm;
        thing.ohm_at = word.at;
    } else if ((cavities_may_follow || !sheet.bus().single) &&
               read_cavities(word, sheet.bus().single, thing)) {
        first = cavities_may_follow;
    } else {
        say_unknown(cursor, thing, sheet);
        while (cursor.any()) cursor.step();
        return;
    }
    cursor.step();
}

}  // namespace

std::pair<std::string, char> split_half(const std::string& name) {
    const std::size_t dot = name.rfind('.');
    if (dot == std::string::npos || dot + 2 != name.size()) return {name, 0};
    const std::string half = lower(name.substr(dot + 1));
    if (half != "a" && half != "b") return {name, 0};
    return {name.substr(0, dot), half.front()};
}

WireWords read_wire_words(Cursor& cursor, Sheet& sheet) {
    WireWords wire;
    if (cursor.any()) wire.at = cursor.word().at;
    while (cursor.any()) {
        const std::string plain = lower(cursor.word().text);
        const bool kind_named = std::any_of(kind_words().begin(), kind_words().end(),
                                            [&](const auto& entry) { return entry.first == plain; });
        if (kind_named || !read_wire_word(cursor, wire, sheet)) break;
    }
    wire.stand = sheet.bus().chain.carried().stand;
    return wire;
}

ThingWords read_thing_words(Cursor& cursor, Sheet& sheet) {
    ThingWords thing;
    for (const auto& [word, kind] : kind_words()) {
        if (lower(cursor.word().text) == word && cursor.more()) thing.kind = kind;
    }
    if (thing.kind) cursor.step();
    thing.at = cursor.word().at;
    std::tie(thing.id, thing.half) = split_half(cursor.word().text);
    cursor.step();
    char half = 0;
    bool first = true;
    while (cursor.any()) read_thing_word(cursor, thing, half, first, sheet);
    return thing;
}

}  // namespace halfsplit::draft
