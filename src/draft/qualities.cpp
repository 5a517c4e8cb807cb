#include "draft/qualities.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace halfsplit::draft {

namespace {

constexpr double longest_minutes = 1440;

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

}  // namespace

const std::vector<std::string>& known_qualities() {
    static const std::vector<std::string> all{"flexing", "wet",     "worked-on", "add-on", "unverified",
                                              "with",    "without", "absent",    "maybe",  "weight"};
    return all;
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

}  // namespace halfsplit::draft
