// The words in front of the thing.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/qualities.hpp"
#include "harness/colours.hpp"

namespace halfsplit::draft {

namespace {

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

}  // namespace

WireWords read_wire_words(Cursor& cursor, Sheet& sheet) {
    WireWords wire;
    if (cursor.any()) wire.at = cursor.word().at;
    while (cursor.any()) {
        if (read_kind(cursor.word().text) || !read_wire_word(cursor, wire, sheet)) break;
    }
    wire.stand = sheet.bus().chain.carried().stand;
    return wire;
}

}  // namespace halfsplit::draft
