// Lines of a sheet about the vehicle as a whole: titles, options, places, covers, ways, usual values.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/sheet.hpp"

#include <algorithm>
#include <functional>

namespace halfsplit::draft {

namespace {

constexpr double most_of_a_day = 1440;  // minutes

std::vector<Word> words_in(const Word& text) {
    SheetLine line = split_line("x " + text.text, text.at.line);
    if (line.text) return {};
    line.words.erase(line.words.begin());
    for (Word& word : line.words) word.at.column += text.at.column - 3;
    return line.words;
}

void say_needed(const SheetLine& line, const char* what, const char* example, Sheet& sheet) {
    sheet.error("sheet-missing", line.words.front().at,
                {fmt::format("{} is missing behind \"{}\"", what, line.words.front().text), example, "",
                 "write it, or delete the line"});
}

void say_extra(const Word& word, const std::vector<std::string>& known, const char* expected, Sheet& sheet) {
    sheet.error("sheet-word", word.at,
                {fmt::format("\"{}\" has no meaning here", word.text), expected,
                 nearest_name(word.text, known), "correct the word, or put words behind a comma"});
}

void put_text(const char* member, const SheetLine& line, Sheet& sheet) {
    sheet.document.head()[member] = line.rest.text;
    sheet.document.place(fmt::format("/{}", member), line.rest.at);
}

// Enters a declared name; a second one is a finding.
bool declare(Names& names, const Word& word, Sheet& sheet) {
    if (!usable_id(word, sheet)) return false;
    if (std::find(names.made.begin(), names.made.end(), word.text) != names.made.end()) {
        sheet.error("sheet-order", word.at,
                    {fmt::format("the {} \"{}\" is used further up already", names.kind, word.text),
                     "declared before it is used", "", "move this line up, above the first bus"});
        return false;
    }
    if (names.lent.erase(word.text) > 0) return true;  // in place of the library's
    if (std::find(names.ids.begin(), names.ids.end(), word.text) != names.ids.end()) {
        sheet.error("duplicate-id", word.at,
                    {fmt::format("there is already a {} named \"{}\"", names.kind, word.text),
                     "each name once", "", "rename one of the two"});
        return false;
    }
    names.ids.push_back(word.text);
    return true;
}

void read_option(const SheetLine& line, Sheet& sheet) {
    if (line.words.size() < 2) return say_needed(line, "a name", "option lift yes, wheelchair lift", sheet);
    sheet.options.open = false;
    if (!declare(sheet.options, line.words[1], sheet)) return;
    Json option{{"id", line.words[1].text}};
    if (line.text) option["name"] = line.text->text;
    option["fitted"] = "unknown";
    bool said = false;
    for (std::size_t i = 2; i < line.words.size(); ++i) {
        const std::string word = lower(line.words[i].text);
        if (word != "yes" && word != "no" && word != "?" && word != "unknown") {
            say_extra(line.words[i], {"yes", "no", "unknown"}, "yes, no or ?", sheet);
            continue;
        }
        option["fitted"] = word == "?" ? "unknown" : word;
        said = true;
    }
    if (!said) sheet.missing("option", line.words[1].text);
    const std::string pointer = sheet.document.append("options", std::move(option), line.words[1].at);
    sheet.document.place(pointer + "/id", line.words[1].at);
}

void read_place(const SheetLine& line, Sheet& sheet) {
    if (line.words.size() < 2) return say_needed(line, "a name", "place dash airbag, dash, middle", sheet);
    sheet.places.open = false;
    if (!declare(sheet.places, line.words[1], sheet)) return;
    Json place{{"id", line.words[1].text}};
    if (line.text) place["name"] = line.text->text;
    for (std::size_t i = 2; i < line.words.size(); ++i) place["cautions"].push_back(line.words[i].text);
    sheet.document.append("places", std::move(place), line.words[1].at);
}

// "under seat_1/seat_2": covers that may be declared further down.
void read_under(const Word& word, Json& cover, const std::string& pointer, Sheet& sheet) {
    for (const Word& over : split_text(word, '/')) {
        sheet.document.place(fmt::format("{}/under/{}", pointer, cover["under"].size()), over.at);
        cover["under"].push_back(over.text);
    }
}

void read_cover(const SheetLine& line, Sheet& sheet) {
    if (line.words.size() < 2) return say_needed(line, "a name", "cover kick 7/5', kick panel", sheet);
    sheet.covers.open = false;
    if (!declare(sheet.covers, line.words[1], sheet)) return;
    const std::string pointer = sheet.document.append("covers", Json::object(), line.words[1].at);
    Json cover{{"id", line.words[1].text}};
    if (line.text) cover["name"] = line.text->text;
    Minutes minutes;
    std::vector<std::string> cautions;
    for (std::size_t i = 2; i < line.words.size(); ++i) {
        const Word& word = line.words[i];
        if (const auto read = read_minutes(word.text)) {
            minutes = *read;
            for (const auto& figure : {minutes.probe, minutes.look}) {
                if (figure) within(*figure, 0, most_of_a_day, word, "minutes", sheet);
            }
        } else if (lower(word.text) == "under" && i + 1 < line.words.size()) {
            read_under(line.words[++i], cover, pointer, sheet);
        } else if (read_minutes(word.text + '\'')) {
            say_extra(word, {}, "minutes off and on with their mark, such as 7/5', or a caution", sheet);
        } else {
            cautions.push_back(word.text);
        }
    }
    if (!minutes.probe || !minutes.look) sheet.missing("cover", line.words[1].text);
    cover["off_minutes"] = number_to_json(minutes.probe.value_or(10));
    cover["on_minutes"] = number_to_json(minutes.look.value_or(10));
    if (!cautions.empty()) cover["cautions"] = cautions;
    sheet.document.at(pointer) = std::move(cover);
}

// "caution place dash, words": a caution of more than one word.
void read_caution(const SheetLine& line, Sheet& sheet) {
    const bool shaped = line.words.size() == 3 && line.text &&
                        (lower(line.words[1].text) == "place" || lower(line.words[1].text) == "cover");
    if (!shaped)
        return say_needed(line, "what it is about", "caution place dash, what to look out for", sheet);
    const std::string list = lower(line.words[1].text) + "s";
    for (Json& entry : sheet.document.list(list)) {
        if (lower(entry.value("id", "")) != lower(line.words[2].text)) continue;
        entry["cautions"].push_back(line.text->text);
        return;
    }
    say_extra(line.words[2], {}, "a place or cover that is declared further up", sheet);
}

void read_start(const SheetLine& line, Sheet& sheet) {
    if (line.words.size() != 2) return say_needed(line, "a place", "start driver", sheet);
    const std::string place = name_in(sheet.places, line.words[1], sheet);
    if (place.empty()) return;
    sheet.document.head()["start"] = place;
    sheet.document.place("/start", line.words[1].at);
}

// "travel 2" and "travel driver dash 1; dash roof 3".
void read_travel(const SheetLine& line, Sheet& sheet) {
    Json& travel = sheet.document.head()["travel"];
    if (travel.is_null()) travel = Json::object();
    for (const Word& part : split_text(line.rest, ';')) {
        const std::vector<Word> words = words_in(part);
        const auto minutes = words.empty() ? std::nullopt : read_plain(words.back().text);
        if (!minutes || (words.size() != 1 && words.size() != 3)) {
            say_extra(part, {}, "travel 2 (everywhere), or travel driver dash 1; dash roof 3", sheet);
            continue;
        }
        if (!within(*minutes, 0, most_of_a_day, words.back(), "minutes", sheet)) continue;
        if (words.size() == 1) {
            travel["default_minutes"] = number_to_json(*minutes);
            continue;
        }
        const std::string from = name_in(sheet.places, words[0], sheet);
        const std::string to = name_in(sheet.places, words[1], sheet);
        sheet.document.place(fmt::format("/travel/pairs/{}", travel["pairs"].size()), words[0].at);
        travel["pairs"].push_back({{"between", {from, to}}, {"minutes", number_to_json(*minutes)}});
    }
}

void read_assumption(const SheetLine& line, Sheet& sheet) {
    Json& assumptions = sheet.document.head()["assumptions"];
    for (const Word& part : split_text(line.rest, ';')) {
        const std::vector<Word> words = words_in(part);
        const auto value = words.size() == 2 ? read_plain(words[1].text) : std::nullopt;
        if (!value) {
            say_extra(part, {}, "a figure and its value: assume contact_slip 0.05; unmate_minutes 2", sheet);
            continue;
        }
        assumptions[words[0].text] = number_to_json(*value);
        sheet.document.place("/assumptions/" + words[0].text, words[0].at);
    }
}

// "usual splice 4/5'": what counts where a thing says nothing of its own.
void read_usual(const SheetLine& line, Sheet& sheet) {
    if (line.words.size() < 3) return say_needed(line, "what is usual", "usual splice 4/5'", sheet);
    const std::string kind = lower(line.words[1].text);
    if (kind != "wire" && !read_kind(kind)) {
        return say_extra(line.words[1],
                         {"wire", "module", "connector", "splice", "terminator", "plug", "socket"},
                         "wire, module, connector, splice, terminator, plug or socket", sheet);
    }
    for (std::size_t i = 2; i < line.words.size(); ++i) {
        const Word& word = line.words[i];
        if (const auto minutes = read_minutes(word.text)) {
            (kind == "wire" ? sheet.usual_wire : sheet.usual_minutes[*read_kind(kind)]) = *minutes;
        } else if (const auto length = read_length(word.text); length && kind == "wire") {
            if (within(*length, 0, 1000, word, "a length in metres", sheet)) sheet.usual_length = *length;
        } else {
            say_extra(word, {}, "minutes such as 4/5', or the length of a wire", sheet);
        }
    }
}

void read_use(const SheetLine& line, Sheet& sheet) {
    if (line.rest.text.empty()) return say_needed(line, "the name of a library", "use minibus", sheet);
    read_library(line.rest, sheet);
}

}  // namespace

bool read_surroundings_line(const SheetLine& line, Sheet& sheet) {
    static const std::map<std::string, std::function<void(const SheetLine&, Sheet&)>> readers{
        {"title", [](const SheetLine& l, Sheet& s) { put_text("title", l, s); }},
        {"vehicle", [](const SheetLine& l, Sheet& s) { put_text("vehicle", l, s); }},
        {"remark", [](const SheetLine& l, Sheet& s) { put_text("note", l, s); }},
        {"use", read_use},
        {"option", read_option},
        {"place", read_place},
        {"cover", read_cover},
        {"caution", read_caution},
        {"start", read_start},
        {"travel", read_travel},
        {"assume", read_assumption},
        {"usual", read_usual},
    };
    const auto reader = readers.find(lower(line.words.front().text));
    if (reader == readers.end()) return false;
    reader->second(line, sheet);
    return true;
}

}  // namespace halfsplit::draft
