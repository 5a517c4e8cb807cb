#include "cli/sheet_questions.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/report/strip.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

namespace halfsplit::cli {

namespace {

constexpr std::string_view general_help =
    "Enter takes what stands in brackets. back: the question before, or the last line off again. list: the "
    "sheet so far. bus: another bus. from X2.a 7/8: go on elsewhere. done: the bus is whole. q: leave, all "
    "is "
    "saved. Instead of a name a whole line of the sheet will do: 1.1 X1 4/5 @driver, dash to body.";

std::string plain(const std::string& line) {
    const std::vector<std::string> words = split_words(line);
    return join(words, " ");
}

// "driver kick_driver 2/4'" as "@driver/kick_driver 2/4'".
std::string as_place(const std::string& answer) {
    std::string place, rest;
    for (const std::string& word : split_words(answer)) {
        if (word.back() == '\'') {
            rest += " " + word;
        } else {
            place += (place.empty() || place.back() == '/' || word.front() == '/' ? "" : "/") + word;
        }
    }
    if (place.empty()) return rest;
    return (place.front() == '@' ? " " : " @") + place + rest;
}

std::size_t count_pairs(const std::string& cavities) {
    return split_words(cavities).size();
}

}  // namespace

SheetQuestions::SheetQuestions(Context& context, std::string file, std::size_t columns)
    : context_(context), file_(std::move(file)), columns_(columns) {
    rules_.include = context.include;
}

void SheetQuestions::say(const std::string& text, std::size_t indent) {
    context_.out << wrap(printable(text), columns_, indent) << '\n';
}

bool SheetQuestions::known(const std::string& name) const {
    const auto same = [&](const std::string& thing) { return lower(thing) == lower(name); };
    return std::any_of(state_.things.begin(), state_.things.end(), same);
}

std::vector<std::string> SheetQuestions::names() const {
    std::vector<std::string> all = state_.things;
    for (const char* word : {"back", "bus", "done", "from", "list"}) all.emplace_back(word);
    return all;
}

SheetQuestions::Said SheetQuestions::ask(const Question& question, std::string& answer) {
    const std::string prompt =
        question.prompt + (question.usual.empty() ? "" : fmt::format(" [{}]", question.usual)) + "> ";
    while (true) {
        const auto line = context_.terminal.read_line(prompt, question.words);
        if (!line || plain(*line) == "q") return Said::Leave;
        answer = plain(*line);
        if (answer == "?" || answer == "h") {
            say(question.help + " " + std::string(general_help));
            continue;
        }
        if (answer == "back") return Said::Back;
        if (answer.empty()) answer = question.usual;
        return Said::Answer;
    }
}

bool SheetQuestions::run() {
    if (file_.empty() && ask_file() == Said::Leave) return false;
    if (context_.files.exists(file_)) {
        text_ = context_.files.read(file_, draft::largest_sheet);
        if (!text_.empty() && text_.back() != '\n') text_ += '\n';
        const auto lines = static_cast<std::size_t>(std::count(text_.begin(), text_.end(), '\n'));
        say(fmt::format("{} goes on: {} so far.", file_, counted(lines, "line")));
    }
    say("? helps at every question.");
    state_ = draft::read_unfinished(text_, file_, context_.files, rules_);
    show();
    while (true) {
        const Said said = ask_line();
        if (said == Said::Leave) {
            say(fmt::format("Saved. To go on: halfsplit draft --ask {}", file_));
            return false;
        }
        if (said == Said::Done) return true;
        if (said == Said::Back) take_back();
    }
}

SheetQuestions::Said SheetQuestions::ask_file() {
    return ask({"Sheet to write", "bus.wires", "The sheet is a text file that is written as you answer.", {}},
               file_);
}

SheetQuestions::Said SheetQuestions::ask_line() {
    if (!state_.errors.empty()) return ask_mending();
    if (state_.bus.empty()) return ask_head();
    return state_.begun ? ask_hop() : ask_start();
}

// A sheet that came with mistakes: they are mended in it, or its last line is taken off.
SheetQuestions::Said SheetQuestions::ask_mending() {
    say(to_text(state_.errors.front()));
    std::string answer;
    return ask({"back takes the last line off",
                "back",
                "Or mend the sheet in an editor: q leaves it as it is.",
                {"back"}},
               answer) == Said::Leave
               ? Said::Leave
               : Said::Back;
}

SheetQuestions::Said SheetQuestions::ask_head() {
    std::string title, library, bus, rate, lines;
    const std::vector<std::pair<Question, std::string*>> questions{
        {{"Vehicle, in words", "", "What the job card says.", {}}, &title},
        {{"Library of places",
          "none",
          "A file of places and covers, such as van, minibus or forestry.",
          {"van", "minibus", "forestry", "none"}},
         &library},
        {{"Name of the bus", "main", "A short name without blanks.", {}}, &bus},
        {{"Bit rate", "500k", "As on the drawing: 125k, 250k, 500k.", {"125k", "250k", "500k"}}, &rate},
        {{"Its lines, as printed", "H L", "The names of H and L on the drawing.", {}}, &lines}};
    for (std::size_t i = text_.empty() ? 0 : 2; i < questions.size();) {
        const Said said = ask(questions[i].first, *questions[i].second);
        if (said == Said::Leave) return said;
        if (said == Said::Back && i == 0) return said;
        said == Said::Back ? --i : ++i;
    }
    std::string start;
    if (!title.empty()) start += "title " + title + "\n";
    if (!library.empty() && library != "none") start += "use " + library + "\n";
    add(start + fmt::format("bus {} {} {}", bus, rate, lines));
    return Said::Answer;
}

SheetQuestions::Said SheetQuestions::ask_start() {
    std::string name;
    const Said said = ask({fmt::format("{} begins at", state_.bus), "",
                           "The module, terminator or splice at its one end.", names()},
                          name);
    if (said != Said::Answer || name.empty()) return said;
    if (split_words(name).size() > 1) {
        add(name);
        return Said::Answer;
    }
    std::string line;
    const Said rest = ask_thing(name, true, line);
    if (rest == Said::Answer) add(line);
    return rest == Said::Back ? Said::Answer : rest;
}

SheetQuestions::Said SheetQuestions::ask_hop() {
    std::string name;
    const std::string from =
        state_.here.empty() ? "The pair has ended; from, bus, done" : fmt::format("From {} to", state_.here);
    const Said said = ask({from, "", "The next thing on the drawing.", names()}, name);
    if (said != Said::Answer || name.empty()) return said;
    if (name == "done") return Said::Done;
    if (name == "list") {
        context_.out << text_;
        return Said::Answer;
    }
    if (name == "bus") return ask_head();
    if (split_words(name).size() > 1) {
        add(name);
        return Said::Answer;
    }
    std::string thing, wire;
    Said rest = ask_thing(name, false, thing);
    if (rest == Said::Answer) rest = ask_wire(wire);
    if (rest == Said::Answer) add(wire + " " + thing);
    return rest == Said::Back ? Said::Answer : rest;
}

SheetQuestions::Said SheetQuestions::ask_wire(std::string& line) {
    std::string length, colours;
    Said said = ask({"Wire, metres",
                     "1",
                     "Its length. Also: section .5mm2, marks (wet, flexing, worked-on), with OPTION.",
                     {"wet", "flexing", "worked-on", "unverified"}},
                    length);
    if (said != Said::Answer) return said;
    const std::string before = state_.colours.empty() ? "?" : state_.colours;
    said = ask({state_.single_line ? "Its colour" : "Colours H/L",
                before,
                "Base and stripe: buye/bubk is blue-yellow and blue-black.",
                {}},
               colours);
    line = length + (colours == state_.colours || colours == "?" ? "" : " " + colours);
    return said;
}

SheetQuestions::Said SheetQuestions::ask_thing(const std::string& name, bool as_start, std::string& line) {
    std::string cavities, before, behind, words;
    const char* example = state_.single_line ? "4; through a module 4 9" : "4/5; through a module 3/4 9/10";
    Said said =
        ask({fmt::format("Cavities of {}", name), "none", fmt::format("{}. A splice has none.", example), {}},
            cavities);
    if (said != Said::Answer) return said;
    if (cavities == "none") cavities.clear();
    const std::string plain_name = name.substr(0, name.find('.'));
    if (!known(plain_name)) {
        said = ask_kind(plain_name, count_pairs(cavities), before, behind, as_start);
        if (said == Said::Answer) said = ask_place(plain_name, behind);
        if (said == Said::Answer)
            said = ask({fmt::format("{} in words", plain_name),
                        "",
                        "What it is; at a connector also its halves: dash to floor, dash side, floor side.",
                        {}},
                       words);
        if (said != Said::Answer) return said;
    }
    line = before + name + (cavities.empty() ? "" : " " + cavities) + behind +
           (words.empty() ? "" : ", " + words);
    return said;
}

SheetQuestions::Said SheetQuestions::ask_kind(const std::string& name, std::size_t pairs, std::string& before,
                                              std::string& behind, bool as_start) {
    const draft::Taken taken = draft::taken_for(name, pairs);
    std::string kind = taken.word;
    if (taken.guessed) {
        const Said said = ask({fmt::format("{} is a", name),
                               taken.word,
                               "module, connector, splice, terminator, socket",
                               {"module", "connector", "splice", "terminator", "socket"}},
                              kind);
        if (said != Said::Answer) return said;
        if (kind != taken.word) before = kind + " ";
    }
    if (kind != "module" || pairs != 1 || state_.single_line) return Said::Answer;
    std::string inside;
    const Said said = ask({fmt::format("Terminator in {}, y or n", name),
                           as_start ? "y" : "n",
                           "Modules at the ends of a bus often hold one.",
                           {}},
                          inside);
    if (lower(inside).rfind('y', 0) == 0) behind += " term";
    return said;
}

SheetQuestions::Said SheetQuestions::ask_place(const std::string& name, std::string& behind) {
    std::string place;
    std::vector<std::string> words = state_.places;
    words.insert(words.end(), state_.covers.begin(), state_.covers.end());
    const std::string before = state_.place.empty() ? "not said" : state_.place;
    const Said said = ask({fmt::format("Where is {}", name), before,
                           "The place, then the covers that come off: driver kick_driver. Also minutes for a "
                           "reading and a look: 2/4'.",
                           words},
                          place);
    if (place != before) behind += as_place(place);
    return said;
}

// Takes the line into the sheet, or says what is wrong with it.
void SheetQuestions::add(const std::string& line) {
    const std::string longer = text_ + line + "\n";
    draft::Unfinished next = draft::read_unfinished(longer, file_, context_.files, rules_);
    if (!next.errors.empty()) {
        context_.out << to_text(next.errors.front()) << "\nNot taken; once more.\n";
        return;
    }
    context_.files.write(file_, longer);
    text_ = longer;
    state_ = std::move(next);
    say(line, 2);
    show();
}

void SheetQuestions::take_back() {
    if (text_.empty()) return;
    const std::size_t end = text_.size() - 1;
    const std::size_t start = end == 0 ? 0 : text_.rfind('\n', end - 1) + 1;
    say("Taken off: " + text_.substr(start, end - start), 2);
    text_.resize(start);
    context_.files.write(file_, text_);
    state_ = draft::read_unfinished(text_, file_, context_.files, rules_);
    show();
}

// The bus as far as it goes.
void SheetQuestions::show() {
    if (!state_.harness || state_.bus.empty()) return;
    const harness::Index network = harness::find_network(*state_.harness, state_.bus);
    if (network == harness::none) return;
    std::string strip = report::strip(*state_.harness, network, {}, columns_);
    const std::string legend = "= read good";
    strip.resize(std::min(strip.size(), strip.rfind(legend)));
    context_.out << '\n' << strip;
}

}  // namespace halfsplit::cli
