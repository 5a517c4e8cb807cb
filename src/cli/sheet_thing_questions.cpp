// Questions about one thing on the bus, and the wire that leads to it. A wrong answer is asked again by
// itself.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "cli/sheet_questions.hpp"

#include <algorithm>
#include <cctype>
#include <map>

namespace halfsplit::cli {

namespace {

// Words of the sheet that may stand behind cavities and places.
bool says_more(const std::string& word) {
    static const std::vector<std::string> words{"with",   "without", "wet",    "flex",  "work", "add",
                                                "absent", "maybe",   "weight", "unver", "plug", "ground",
                                                "supply", "term",    "load",   "clip"};
    const auto begins = [&](const std::string& other) { return lower(word).rfind(other, 0) == 0; };
    return std::any_of(words.begin(), words.end(), begins);
}

// No place and no cover: from the first such word on, the answer stands as it was typed.
bool ends_place(const std::string& word) {
    const bool figure = std::isdigit(static_cast<unsigned char>(word.front())) != 0 || word.front() == '.';
    return figure || says_more(word);
}

// How many pairs (of a single line: cavities) stand in front of whatever else was said: "5/6 1/2 with lift".
std::size_t pairs_in(const std::string& cavities, bool single_line) {
    std::size_t pairs = 0;
    for (const std::string& word : split_words(cavities)) {
        const bool pair = single_line || word.find('/') != std::string::npos;
        if (word == "none" || !pair || says_more(word)) break;
        ++pairs;
    }
    return pairs;
}

std::string listed(const std::string& heading, const std::vector<std::string>& names) {
    return names.empty() ? "" : fmt::format(" {}: {}.", heading, join(names, ", "));
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

std::string SheetQuestions::Hop::thing() const {
    std::string said = kind == "term" || kind.empty() ? name : kind + " " + name;
    if (cavities != "none") said += " " + cavities;
    if (kind == "term") said += " term";
    said += place;
    return words.empty() ? said : said + ", " + words;
}

std::string SheetQuestions::Hop::line() const {
    std::string said = wire;
    if (!colours.empty()) said += " " + colours;
    return said.empty() ? thing() : said + " " + thing();
}

SheetQuestions::Said SheetQuestions::in_turn(const std::vector<std::function<Said()>>& questions) {
    for (std::size_t i = 0; i < questions.size();) {
        const Said said = questions[i]();
        if (said == Said::Leave || (said == Said::Back && i == 0)) return said;
        said == Said::Back ? --i : ++i;
    }
    return Said::Answer;
}

SheetQuestions::Said SheetQuestions::ask_thing(const std::string& name, bool begins) {
    Hop hop;
    hop.name = name;
    hop.begins = begins;
    std::vector<std::function<Said()>> questions{[&] { return ask_cavities(hop); }};
    if (!known(hop.plain_name())) {
        questions.emplace_back([&] { return ask_place(hop); });
        questions.emplace_back([&] { return ask_words(hop); });
    }
    if (!begins) {
        questions.emplace_back([&] { return ask_wire(hop); });
        questions.emplace_back([&] { return ask_colours(hop); });
    }
    const Said said = in_turn(questions);
    if (said == Said::Answer) add(hop.line());
    return said;
}

SheetQuestions::Said SheetQuestions::ask_cavities(Hop& hop) {
    const char* example = state_.single_line ? "4; through a module 4 9" : "4/5; through a module 3/4 9/10";
    Said said = Said::Answer;
    do {
        hop.kind.clear();
        said = ask({fmt::format("Cavities of {}", hop.name),
                    hop.cavities.empty() ? "none" : hop.cavities,
                    fmt::format("{}. A splice has none.", example),
                    {"none"}},
                   hop.cavities);
        if (said != Said::Answer) return said;
        said = ask_kind(hop);
    } while (said == Said::Back || (said == Said::Answer && refused(hop.thing())));
    return said;
}

// Asked only where neither cavities nor letter tell; the letter's guess is listed at the end.
SheetQuestions::Said SheetQuestions::ask_kind(Hop& hop) {
    if (known(hop.plain_name())) return Said::Answer;
    const draft::Taken taken = draft::taken_for(hop.plain_name(), pairs_in(hop.cavities, state_.single_line));
    if (!taken.guessed || taken.word != "module") return Said::Answer;
    say("m: a module where the pair ends; t: one with a terminator in it; c: a connector");
    while (true) {
        std::string answer;
        const Said said = ask({fmt::format("{} is", hop.name),
                               hop.begins && !state_.single_line ? "t" : "m",
                               "Also a whole word: terminator, socket, splice.",
                               {"module", "connector", "terminator", "socket", "splice"}},
                              answer);
        if (said != Said::Answer) return said;
        const std::string word = lower(answer);
        static const std::map<std::string, std::string> meant{{"m", "module"},
                                                              {"module", "module"},
                                                              {"t", "term"},
                                                              {"term", "term"},
                                                              {"terminator", "terminator"},
                                                              {"c", "connector"},
                                                              {"connector", "connector"},
                                                              {"socket", "socket"},
                                                              {"splice", "splice"}};
        const auto found = meant.find(word);
        if (found == meant.end()) {
            say(fmt::format("\"{}\" is none of m, t, c, terminator, socket, splice.", answer));
            continue;
        }
        hop.kind = found->second == "module" ? "" : found->second;
        return said;
    }
}

SheetQuestions::Said SheetQuestions::ask_place(Hop& hop) {
    const std::string before = state_.place.empty() ? "not said" : state_.place;
    Question question{
        fmt::format("Where is {}", hop.plain_name()), before,
        "The place, then the covers that come off: driver kick_driver. Also minutes for a reading and a "
        "look: 2/4'. Also: wet, with OPTION, 2x10 (the face)." +
            listed("Places", state_.places) + listed("Covers", state_.covers),
        state_.places};
    question.words.insert(question.words.end(), state_.covers.begin(), state_.covers.end());
    Said said = Said::Answer;
    do {
        std::string answer;
        said = ask(question, answer);
        hop.place = answer == before ? "" : as_place(answer);
    } while (said == Said::Answer && refused(hop.thing()));
    return said;
}

SheetQuestions::Said SheetQuestions::ask_words(Hop& hop) {
    return ask({fmt::format("{} in words", hop.plain_name()),
                hop.words,
                "What it is; at a connector also its halves: dash to floor, dash side, floor side.",
                {}},
               hop.words);
}

SheetQuestions::Said SheetQuestions::ask_wire(Hop& hop) {
    Said said = Said::Answer;
    hop.colours.clear();
    do {
        hop.wire.clear();
        said = ask({"Wire, metres",
                    "1",
                    "Its length. Also: section .5mm2, marks (wet, flexing, worked-on), with OPTION, @PLACE.",
                    {"wet", "flexing", "worked-on", "unverified"}},
                   hop.wire);
    } while (said == Said::Answer && refused(hop.line()));
    return said;
}

SheetQuestions::Said SheetQuestions::ask_colours(Hop& hop) {
    const std::string before = state_.colours.empty() ? "?" : state_.colours;
    Said said = Said::Answer;
    do {
        said = ask({state_.single_line ? "Its colour" : "Colours H/L",
                    before,
                    "Base and stripe: buye/bubk is blue with yellow, blue with black. ? where not stated.",
                    {}},
                   hop.colours);
        if (hop.colours == before) hop.colours.clear();
    } while (said == Said::Answer && refused(hop.line()));
    return said;
}

}  // namespace halfsplit::cli
