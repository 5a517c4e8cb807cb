// The thing, and the words behind it.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/qualities.hpp"
#include "harness/names.hpp"

namespace halfsplit::draft {

namespace {

std::vector<std::string> with_qualities(std::vector<std::string> words) {
    words.insert(words.end(), known_qualities().begin(), known_qualities().end());
    return words;
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

ThingWords read_thing_words(Cursor& cursor, Sheet& sheet) {
    ThingWords thing;
    if (cursor.more()) thing.kind = read_kind(cursor.word().text);
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
