#include "cli/conversation.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/harness/vehicle.hpp"
#include "halfsplit/report/closing_text.hpp"
#include "halfsplit/report/spoken.hpp"
#include "halfsplit/report/step_text.hpp"

#include <fmt/format.h>

#include "cli/asides.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <ostream>

namespace halfsplit::cli {

using advice::Action;

namespace {

struct Question {
    std::string_view field, text;
};

constexpr std::array<Question, 4> intake_questions{{
    {"complaint", "complaint"},
    {"conditions", "when (wet, bumps, comes and goes)"},
    {"recent", "recent work or add-ons"},
    {"replaced", "replaced before this visit"},
}};

constexpr std::array<Question, 4> proof_questions{{
    {"hl", "H to L at the clip, ohms"},
    {"answers", "all modules answer, y or n"},
    {"codes", "codes cleared and none back, y or n"},
    {"complaint", "complaint gone, y or n"},
}};

constexpr std::string_view all_works =
    "all that it feeds works, y or n";  // on a single line, in place of answers

constexpr std::array<std::string_view, 5> repairs{"reseated", "cleaned", "repaired", "replaced", "bridged"};

std::string_view keys(const advice::Recommendation& advice) {
    switch (advice.action) {
        case Action::Read:
            if (advice.quantity == "volt") return "2.5 volts  ? not sure  - no reach  u undo  h help";
            return "o open  c closed (beep)  0.4 ohms  ? not sure  - no reach  u undo  h help";
        case Action::Look:
            return "f it is the fault  s it is sound  ? not sure  - no reach  u undo  h help";
        case Action::Repair:
            return "1 reseated  2 cleaned  3 repaired  4 replaced  5 bridge plug fitted  u undo  h help";
        case Action::Scan:
            return "none  all  ids of the silent ones  ? not scanned  u undo  h help";
        case Action::Intake:
        case Action::Verify:
            return "Enter skips a question  u undo  q leave, all is saved  h help";
        default:
            return "u undo  q leave, all is saved  h help";
    }
}

// As many as a line takes, none of them broken.
std::string keys_text(std::string_view keys, std::size_t columns) {
    constexpr std::string_view apart = "  ";
    std::string text;
    std::size_t column = 0;
    while (!keys.empty()) {
        const std::string_view key = keys.substr(0, keys.find(apart));
        keys.remove_prefix(std::min(key.size() + apart.size(), keys.size()));
        const bool fits = column + apart.size() + key.size() <= columns;
        if (column > 0) text += fits ? apart : "\n";
        column = column > 0 && fits ? column + apart.size() + key.size() : key.size();
        text += key;
    }
    return text + '\n';
}

constexpr std::string_view help_text =
    "At every prompt: u undo the last entry (u 3: the last three), Enter the step again, l list the "
    "suspects, "
    "w why, q leave (all is saved), h this.\n"
    "Asked without changing anything: why, others, if open (or closed, 0.4, faulty), where, where X3, map, "
    "say.\n"
    "A reading elsewhere: reading X4.a:3 clip 0.4 (also: ground, supply; moved at the end: while moving the "
    "loom).\n"
    "Metres to a fault, from both ends: distance capacitance X4.b:3/4 X5.a:1/2 h 110pF 290pF (or ohms, "
    "loop).\n"
    "What was seen: seen X4 faulty green pins. Covers: cover off seat. Plugs: unplugged M3, plugged M3.\n"
    "Clip: clip X4.a:3/4. Repair: repair X4 reseated. Also: remark, pause, resume, undo 12, amend 12 0.4, "
    "close.\n"
    "The vehicle is not as drawn: differs fitted LIFT no; differs connector X9 between X1 and M1 at PLACE.\n"
    "Names are those of the harness file; where lines are edited, Tab completes them.";

bool yes(const std::string& line) {
    return lower(line).rfind('y', 0) == 0;
}
bool no(const std::string& line) {
    return lower(line).rfind('n', 0) == 0;
}

std::string trimmed(const std::string& line) {
    const auto first = line.find_first_not_of(" \t");
    if (first == std::string::npos) return "";
    return line.substr(first, line.find_last_not_of(" \t") - first + 1);
}

}  // namespace

Conversation::Conversation(session::Session& session, Context& context, const Manner& manner)
    : session_(session), context_(context), manner_(manner), words_(job::event_words()) {
    words_.insert(words_.end(), aside_words().begin(), aside_words().end());
    const harness::Harness& harness = session.harness();
    for (const char* method : {"capacitance", "ohms", "loop"}) words_.emplace_back(method);
    for (const auto& part : harness.parts) words_.push_back(part.id);
    for (harness::Index i = 0; i < harness.terminals.size(); ++i) words_.push_back(terminal_name(harness, i));
    for (const auto& cover : harness.covers) words_.push_back(cover.id);
}

void Conversation::say(const std::string& text, std::size_t indent) {
    context_.out << wrap(text, screen().columns, indent) << '\n';
}

// A terminal may be turned or resized between two steps.
report::Screen Conversation::screen() const {
    constexpr std::size_t narrowest = 30;
    const std::size_t columns = manner_.columns > 0 ? manner_.columns : context_.terminal.columns();
    return {std::max(columns, narrowest), context_.terminal.emphasis()};
}

void Conversation::run() {
    for (const std::string& notice : session_.notices()) say(notice);
    const harness::Harness& harness = session_.harness();
    say(fmt::format("{} - {}", harness.title, harness.networks[session_.network()].name));
    if (session_.resumed()) {
        say(fmt::format("The job goes on where it stood: {} records, {} spent.", session_.records().size(),
                        format_minutes(session_.state().minutes_spent)));
    }
    bool show = true;
    while (true) {
        if (show) show_step();
        if (session_.advise().action == Action::Closed) return;
        const auto line = context_.terminal.read_line(prompt() + "> ", words_);
        if (!line) {
            say("Saved. The same command goes on from here.");
            return;
        }
        Turn turn = Turn::Again;
        try {
            turn = answer(trimmed(*line));
        } catch (const InputError& error) {
            say(error.what());
        }
        if (turn == Turn::Leave) return;
        show = turn == Turn::NextStep;
        if (show) ring();
    }
}

// Two of them where the entry made the log doubtful.
void Conversation::ring() {
    const std::size_t doubts = session_.advise().doubts.size();
    if (manner_.bell) context_.terminal.ring(doubts > doubts_ ? 2 : 1);
    doubts_ = doubts;
}

void Conversation::show_step() {
    const advice::Recommendation& advice = session_.advise();
    asking_.reset();
    question_ = 0;
    if (advice.action == Action::Intake || advice.action == Action::Verify) asking_ = advice.action;
    if (asking_ == Action::Verify && session_.state().verified) {
        // What was answered before the conversation broke off is not asked again.
        const job::Verified& told = *session_.state().verified;
        const std::array<bool, 4> answered{told.h_to_l_ohm.has_value() || single_line(),
                                           told.all_answer.has_value(), told.codes_clear.has_value(), false};
        while (answered[question_]) ++question_;
    } else if (asking_ == Action::Verify && single_line()) {
        ++question_;  // nothing to read H to L from
    }
    context_.out << '\n';
    if (advice.action == Action::Closed) {
        context_.out << report::closing_text(session_.state(), session_.harness(), screen().columns);
        return;
    }
    if (manner_.spoken && is_hunting(advice)) return show_spoken(advice);
    context_.out << report::turn_text(advice, session_.harness(), session_.network(),
                                      session_.state().minutes_spent, screen());
    if (advice.action == Action::Scan) {
        std::vector<std::string> modules;
        for (const harness::Index module : harness::modules_on(session_.harness(), session_.network()))
            modules.push_back(session_.harness().parts[module].id);
        say((single_line() ? "On it: " : "Modules: ") + join(modules, ", "));
    }
    context_.out << keys_text(keys(advice), screen().columns);
}

// Cautions are never left out, and the rest is one question away: why, where, list.
void Conversation::show_spoken(const advice::Recommendation& advice) {
    for (const std::string& caution : advice.cautions) say("Care: " + caution);
    for (const advice::Doubt& doubt : advice.doubts)
        say(fmt::format("Record {} does not fit the rest.", doubt.sequence));
    say(fmt::format("{} left, {} spent.", counted(advice.parts.size(), "suspect"),
                    format_minutes(session_.state().minutes_spent)));
    say(report::spoken(advice));
}

bool Conversation::single_line() const {
    return session_.harness().networks[session_.network()].single_line;
}

std::string Conversation::prompt() {
    if (asking_ == Action::Intake) return std::string(intake_questions[question_].text);
    if (asking_ == Action::Verify) {
        const Question& question = proof_questions[question_];
        return std::string(question.field == "answers" && single_line() ? all_works : question.text);
    }
    return report::prompt_text(session_.advise());
}

Conversation::Turn Conversation::answer(const std::string& line) {
    if (line.size() == 1) {
        const std::string known = "uqhlw";
        if (known.find(line) != std::string::npos) return single_key(line);
    }
    const std::vector<std::string> words = split_words(line);
    if (words.size() == 2 && words.front() == "u") return undo(words.back());
    const bool free_text = asking_ == Action::Intake;
    if (!words.empty() && !free_text && answer_aside(words, session_, screen(), context_.out))
        return Turn::Again;
    if (asking_) return answer_question(line) ? Turn::NextStep : Turn::Again;
    if (line.empty()) {
        show_step();
        return Turn::Again;
    }
    return answer_step(line) ? Turn::NextStep : Turn::Again;
}

Conversation::Turn Conversation::single_key(const std::string& key) {
    switch (key.front()) {
        case 'q':
            say("Saved. The same command goes on from here.");
            return Turn::Leave;
        case 'u':
            return undo("1");
        case 'l':
            context_.out << report::suspects_text(session_.advise(), {screen().columns, false});
            for (const std::string& assumed : session_.advise().assumed) say("assumed: " + assumed, 9);
            return Turn::Again;
        case 'w':
            answer_aside({"why"}, session_, screen(), context_.out);
            return Turn::Again;
        default:
            say(std::string(help_text));
            return Turn::Again;
    }
}

// So many entries, the newest first.
Conversation::Turn Conversation::undo(const std::string& steps) {
    std::size_t left = 0;
    const auto [end, error] = std::from_chars(steps.data(), steps.data() + steps.size(), left);
    if (error != std::errc() || end != steps.data() + steps.size() || left == 0) {
        say("u undoes one entry, u 3 the last three; undo 12 undoes record 12.");
        return Turn::Again;
    }
    for (; left > 0; --left) enter({"undo"});
    return Turn::NextStep;
}

// True when the step is answered.
bool Conversation::answer_step(const std::string& line) {
    std::vector<std::string> words = split_words(line);
    const auto& events = job::event_words();
    const bool full_event = std::find(events.begin(), events.end(), words.front()) != events.end();
    if (!full_event) {
        switch (session_.advise().action) {
            case Action::Scan:
                answer_scan(line);
                return true;
            case Action::SafeState:
                return answer_safe_state(line);
            case Action::Repair:
                return answer_repair(line);
            case Action::Refit:
                return answer_all_back(line);
            case Action::Close:
                if (!yes(line)) return false;
                words = {"close"};
                break;
            case Action::Look:
                if (words.front() == "f") words.front() = "faulty";
                if (words.front() == "s") words.front() = "sound";
                if (words.front() == "?") words.front() = "unsure";
                if (words.front() == "-") words.front() = "unreached";
                break;
            default:
                break;
        }
    }
    enter(words);
    return true;
}

void Conversation::answer_scan(const std::string& line) {
    const std::string word = lower(line);
    if (word == "?") return enter(job::Event{job::Answers{}});
    if (word == "none" || word == "0") return enter({"answers", "all"});
    if (word == "all") return enter({"answers", "none"});
    std::string list = join(split_words(line), ",");
    while (list.find(",,") != std::string::npos) list.erase(list.find(",,"), 1);
    enter({"answers", "silent", list});
}

bool Conversation::answer_safe_state(const std::string& line) {
    if (!yes(line)) {
        say("Ohms wait until it is. Readings in volts and looks can be noted meanwhile.");
        return false;
    }
    const auto words = split_words(line);
    std::vector<std::string> event{"safe", "ignition=off", "bus=asleep", "battery=off"};
    if (words.size() > 1) event.push_back("waited=" + words[1]);
    enter(event);
    return true;
}

bool Conversation::answer_repair(const std::string& line) {
    auto words = split_words(line);
    const std::size_t number =
        words.front().size() == 1 ? static_cast<std::size_t>(words.front()[0] - '1') : repairs.size();
    if (number < repairs.size()) words.front() = std::string(repairs[number]);
    std::vector<std::string> event{"repair", session_.advise().target.part};
    event.insert(event.end(), words.begin(), words.end());
    enter(event);
    return true;
}

bool Conversation::answer_all_back(const std::string& line) {
    if (!yes(line)) {
        say("One at a time: cover on ID, plugged ID.");
        return false;
    }
    const advice::Recommendation advice = session_.advise();
    for (const std::string& part : advice.parts_to_reconnect) enter({"plugged", part});
    // What came off last goes back first.
    const auto& covers = advice.covers_to_refit;
    std::for_each(covers.rbegin(), covers.rend(), [this](const std::string& cover) {
        enter({"cover", "on", cover});
    });
    return true;
}

// True when the last question is behind us.
bool Conversation::answer_question(const std::string& line) {
    const bool intake = asking_ == Action::Intake;
    const Question& question = intake ? intake_questions[question_] : proof_questions[question_];
    const auto words = split_words(line);
    const auto& events = job::event_words();
    if (!intake && !words.empty() && std::find(events.begin(), events.end(), words.front()) != events.end()) {
        enter(words);
        return true;
    }
    std::string value = line;
    if (intake) {
        if (value.empty() && question_ == 0) value = "not stated";
        if (!value.empty()) enter({"intake", fmt::format("{}={}", question.field, value)});
    } else if (question.field == "hl") {
        if (!value.empty()) enter({"verified", "hl=" + value});
    } else {
        if (!value.empty() && !yes(value) && !no(value)) {
            say("y or n, or Enter to leave it open.");
            return false;
        }
        const std::string_view good = question.field == "answers" ? "all"
                                      : question.field == "codes" ? "clear"
                                                                  : "gone";
        const std::string_view bad = question.field == "answers" ? "some"
                                     : question.field == "codes" ? "stored"
                                                                 : "back";
        if (!value.empty())
            enter({"verified", fmt::format("{}={}", question.field, yes(value) ? good : bad)});
    }
    ++question_;
    return question_ == intake_questions.size();
}

void Conversation::enter(const std::vector<std::string>& words) {
    enter(session_.parse(words));
}

void Conversation::enter(const job::Event& event) {
    for (const job::Record& record : session_.enter(event)) {
        say(fmt::format("[{}] {}", record.sequence, job::in_words(record.event, session_.harness())), 5);
    }
}

}  // namespace halfsplit::cli
