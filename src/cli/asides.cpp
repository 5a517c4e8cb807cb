#include "cli/asides.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/drawing/drawing.hpp"
#include "halfsplit/report/aside_text.hpp"
#include "halfsplit/report/spoken.hpp"

#include "cli/job_marks.hpp"

#include <map>
#include <ostream>

namespace halfsplit::cli {

namespace {

// The answers to a step in the words of the log.
std::string answer_word(const std::string& word) {
    static const std::map<std::string, std::string> meant{
        {"f", "faulty"}, {"s", "sound"}, {"open", "o"}, {"closed", "c"}};
    const auto found = meant.find(lower(word));
    return found == meant.end() ? word : found->second;
}

std::string suppose(std::vector<std::string> answer, session::Session& session,
                    const report::Screen& screen) {
    if (answer.empty()) {
        Finding finding;
        finding.id = "event-word-missing";
        finding.location.file = "input";
        finding.message = "what it might show is missing";
        finding.expected = "an answer to the step";
        finding.next_step = "For example: if open, if 0.4, if faulty.";
        throw InputError(finding);
    }
    const std::string typed = join(answer, " ");
    answer.front() = answer_word(answer.front());
    return report::supposed_text(typed, session.suppose(session.parse(answer)), screen);
}

std::string where(const std::vector<std::string>& names, session::Session& session,
                  const report::Screen& screen) {
    const advice::Recommendation& advice = session.advise();
    std::vector<std::string> parts = names;
    if (parts.empty()) parts = {advice.action == advice::Action::Read ? advice.red.part : advice.target.part};
    std::string text;
    for (const std::string& name : parts)
        if (!name.empty())
            text += report::where_text(session.harness(), job::part_named(name, session.harness()),
                                       session.state(), screen);
    return text.empty() ? wrap("Name a part: where X3.", screen.columns) + "\n" : text;
}

}  // namespace

const std::vector<std::string>& aside_words() {
    static const std::vector<std::string> words{"why", "others", "if", "where", "map", "say"};
    return words;
}

bool answer_aside(const std::vector<std::string>& words, session::Session& session,
                  const report::Screen& screen, std::ostream& out) {
    std::vector<std::string> rest = words;
    if (rest.size() > 1 && lower(rest[0]) == "what" && lower(rest[1]) == "if") rest.erase(rest.begin());
    const std::string key = lower(rest.front());
    rest.erase(rest.begin());
    if (key == "why" && rest.empty()) {
        out << report::why_text(session.advise(), screen);
    } else if (key == "others" && rest.empty()) {
        out << report::others_text(session.advise(), screen);
    } else if (key == "if") {
        out << suppose(rest, session, screen);
    } else if (key == "where") {
        out << where(rest, session, screen);
    } else if (key == "map" && rest.empty()) {
        const drawing::Drawing picture(session.harness(), session.network());
        out << picture.text(job_marks(session.harness(), session.network(), session.state()), screen.columns);
    } else if (key == "say" && rest.empty()) {
        out << wrap(report::spoken(session.advise()), screen.columns) << '\n';
    } else {
        return false;
    }
    return true;
}

}  // namespace halfsplit::cli
