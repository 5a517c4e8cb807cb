// Questions about one thing on the bus, and the wire that leads to it. A wrong answer is asked again by
// itself.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "cli/sheet_questions.hpp"

#include <algorithm>
#include <cctype>

namespace halfsplit::cli {

namespace {

// Words that are no place and no cover: from the first of them on, the answer stands as it was typed.
bool ends_place(const std::string& word) {
    static const std::vector<std::string> others{"with",   "without", "wet",    "flex",  "work", "add",
                                                 "absent", "maybe",   "weight", "unver", "plug", "ground",
                                                 "supply", "term",    "load",   "clip"};
    const bool figure = std::isdigit(static_cast<unsigned char>(word.front())) != 0 || word.front() == '.';
    const auto begins = [&](const std::string& other) { return lower(word).rfind(other, 0) == 0; };
    return figure || std::any_of(others.begin(), others.end(), begins);
}

// "driver kick_driver 2/4'" as " @driver/kick_driver 2/4'".
std::string as_place(const std::string& answer) {
    std::string place, rest;
    for (const std::string& word : split_words(answer)) {
        if (!rest.empty() || ends_place(word)) {
            rest += " " + word;
        } else {
            place += (place.empty() || place.back() == '/' || word.front() == '/' ? "" : "/") + word;
        }
    }
    if (place.empty()) return rest;
    return (place.front() == '@' ? " " : " @") + place + rest;
}

}  // namespace

SheetQuestions::Said SheetQuestions::ask_thing(const std::string& name, bool as_start, std::string& line) {
    const char* example = state_.single_line ? "4; through a module 4 9" : "4/5; through a module 3/4 9/10";
    const std::string plain_name = name.substr(0, name.find('.'));
    Said said = Said::Answer;
    do {
        std::string cavities;
        said = ask(
            {fmt::format("Cavities of {}", name), "none", fmt::format("{}. A splice has none.", example), {}},
            cavities);
        line = name + (cavities == "none" ? "" : " " + cavities);
        if (said == Said::Answer && !known(plain_name))
            said =
                ask_kind(plain_name, cavities == "none" ? 0 : split_words(cavities).size(), as_start, line);
    } while (said == Said::Answer && refused(line));
    if (said != Said::Answer || known(plain_name)) return said;
    said = ask_place(plain_name, line);
    if (said != Said::Answer) return said;
    std::string words;
    said = ask({fmt::format("{} in words", plain_name),
                "",
                "What it is; at a connector also its halves: dash to floor, dash side, floor side.",
                {}},
               words);
    if (!words.empty()) line += ", " + words;
    return said;
}

// Asked only where neither cavities nor letter tell; the letter's guess is listed at the end.
SheetQuestions::Said SheetQuestions::ask_kind(const std::string& name, std::size_t pairs, bool as_start,
                                              std::string& line) {
    const draft::Taken taken = draft::taken_for(name, pairs);
    if (!taken.guessed || taken.word != "module") return Said::Answer;
    std::string kind;
    const std::string usual = as_start && !state_.single_line ? "t" : "m";
    say("m: a module where the pair ends; t: one with a terminator in it; c: a connector");
    const Said said = ask({fmt::format("{} is", name),
                           usual,
                           "Also a whole word: terminator, socket.",
                           {"module", "connector", "terminator", "socket"}},
                          kind);
    if (kind == "t") line += " term";
    if (kind == "c") kind = "connector";
    if (kind.size() > 1) line = kind + " " + line;
    return said;
}

SheetQuestions::Said SheetQuestions::ask_place(const std::string& name, std::string& line) {
    const std::string before = state_.place.empty() ? "not said" : state_.place;
    Question question{
        fmt::format("Where is {}", name), before,
        "The place, then the covers that come off: driver kick_driver. Also minutes for a reading and a "
        "look: 2/4'. Also: wet, with OPTION, 2x10 (the face).",
        state_.places};
    question.words.insert(question.words.end(), state_.covers.begin(), state_.covers.end());
    std::string place, longer;
    Said said = Said::Answer;
    do {
        said = ask(question, place);
        longer = line + (place == before ? "" : as_place(place));
    } while (said == Said::Answer && refused(longer));
    line = longer;
    return said;
}

SheetQuestions::Said SheetQuestions::ask_wire(const std::string& thing, std::string& line) {
    const std::string before = state_.colours.empty() ? "?" : state_.colours;
    std::string length, colours;
    Said said = Said::Answer;
    do {
        said = ask({"Wire, metres",
                    "1",
                    "Its length. Also: section .5mm2, marks (wet, flexing, worked-on), with OPTION, @PLACE.",
                    {"wet", "flexing", "worked-on", "unverified"}},
                   length);
    } while (said == Said::Answer && refused(length + " " + thing));
    while (said == Said::Answer) {
        said = ask({state_.single_line ? "Its colour" : "Colours H/L",
                    before,
                    "Base and stripe: buye/bubk is blue with yellow, blue with black. ? where not stated.",
                    {}},
                   colours);
        line = length;
        if (colours != before) line.append(" ").append(colours);
        line.append(" ").append(thing);
        if (said != Said::Answer || !refused(line)) break;
    }
    return said;
}

}  // namespace halfsplit::cli
