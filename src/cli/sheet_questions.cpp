#include "cli/sheet_questions.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/report/strip.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
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

// Whether one word can be the name of a thing: ".6", "1.2m" and "4/5" are something else.
bool like_a_name(const std::string& word) {
    const bool plain_start = std::isalnum(static_cast<unsigned char>(word.front())) != 0;
    const bool length = word.find_first_not_of("0123456789.cm") == std::string::npos &&
                        std::isdigit(static_cast<unsigned char>(word.front())) != 0;
    return plain_start && !length && word.find_first_of("/@,'") == std::string::npos;
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
        const std::string word = line ? plain(*line) : "q";
        if (word == "q") return Said::Leave;
        if (word == "back") return Said::Back;
        if (word == "?" || word == "h") {
            say(question.help + " " + std::string(general_help));
            continue;
        }
        answer = word.empty() ? question.usual : word;
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
    const auto asking = [this](Question question, std::string& answer) {
        return [this, question = std::move(question), &answer] { return ask(question, answer); };
    };
    std::vector<std::function<Said()>> questions{
        asking({"Name of the bus", "main", "A short name without blanks.", {}}, bus),
        asking({"Bit rate", "500k", "As on the drawing: 125k, 250k, 500k.", {"125k", "250k", "500k"}}, rate),
        asking({"Its lines, as printed", "H L", "The names of H and L on the drawing.", {}}, lines)};
    if (text_.empty())
        questions.insert(questions.begin(),
                         {asking({"Vehicle, in words", "", "What the job card says.", {}}, title),
                          asking({"Library of places",
                                  "none",
                                  "A file of places and covers, such as van, minibus or forestry.",
                                  {"van", "minibus", "forestry", "none"}},
                                 library)});
    const Said said = in_turn(questions);
    if (said != Said::Answer) return said;
    if (!title.empty()) add("title " + title);
    if (!library.empty() && library != "none") add("use " + library);
    add(fmt::format("bus {} {} {}", bus, rate, lines));
    return Said::Answer;
}

SheetQuestions::Said SheetQuestions::ask_start() {
    std::string name;
    const Said said = ask({fmt::format("{} begins at", state_.bus), "",
                           "The module, terminator or splice at its one end.", names()},
                          name);
    if (said != Said::Answer || name.empty()) return said;
    if (whole_line(name)) return Said::Answer;
    const Said rest = ask_thing(name, true);
    return rest == Said::Back ? Said::Answer : rest;
}

SheetQuestions::Said SheetQuestions::ask_hop() {
    std::string name;
    const bool at_splice = state_.here.find(' ') == std::string::npos;
    const std::string from = state_.here.empty() ? "The pair has ended; from, bus, done"
                             : at_splice         ? fmt::format("From {} to, or done", state_.here)
                                                 : fmt::format("From {} to", state_.here);
    const Said said = ask({from, "", "The next thing on the drawing.", names()}, name);
    if (said != Said::Answer || name.empty()) return said;
    if (name == "done") return Said::Done;
    if (name == "bus") return ask_head();
    if (name == "list") {
        context_.out << text_;
        return Said::Answer;
    }
    if (whole_line(name)) return Said::Answer;
    const Said rest = ask_thing(name, false);
    return rest == Said::Back ? Said::Answer : rest;
}

// More than one word: a line as it will stand in the sheet. What cannot be a name is told.
bool SheetQuestions::whole_line(const std::string& answer) {
    if (split_words(answer).size() > 1) {
        add(answer);
        return true;
    }
    if (like_a_name(answer)) return false;
    say(fmt::format(
        "\"{}\" is no name: first what is next, such as X1; then its cavities, the wire and the place.",
        answer));
    return true;
}

bool SheetQuestions::refused(const std::string& line) {
    const draft::Unfinished next = draft::read_unfinished(text_ + line + "\n", file_, context_.files, rules_);
    if (next.errors.empty()) return false;
    const Finding& finding = next.errors.front();
    std::string text = finding.message + ".";
    if (!finding.expected.empty()) text += " Expected: " + finding.expected + ".";
    if (!finding.nearest.empty()) text += " Did you mean \"" + finding.nearest + "\"?";
    say(text);
    return true;
}

// Takes the line into the sheet; on disk before it is shown.
void SheetQuestions::add(const std::string& line) {
    if (refused(line)) return say("Not taken; once more.");
    const std::string longer = text_ + line + "\n";
    context_.files.write(file_, longer);
    text_ = longer;
    state_ = draft::read_unfinished(text_, file_, context_.files, rules_);
    say("+ " + line, 2);
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
