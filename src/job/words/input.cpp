#include "input.hpp"

#include "halfsplit/base/json_text.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/job/words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace halfsplit::job {

namespace {

constexpr std::string_view minutes_key = "minutes=";

// A word pasted by mistake may be thousands of letters long.
std::string with_short_words(std::string message, const std::vector<std::string>& words) {
    for (const std::string& word : words) {
        const std::string shown = line_of(word, 1);
        const std::size_t at = shown.size() < word.size() ? message.find(word) : std::string::npos;
        if (at != std::string::npos) message.replace(at, word.size(), shown + "...");
    }
    return message;
}

}  // namespace

Input::Input(std::vector<std::string> words) : words_(std::move(words)), line_(join(words_, " ")) {
    if (line_.size() > most_entry) {
        const std::size_t length = line_.size();
        line_.clear();
        refuse(0, {"event-too-long", fmt::format("the entry has {} bytes", length),
                   fmt::format("at most {}", most_entry), "", "Say it in several remarks."});
    }
    for (std::size_t i = 0; i < words_.size(); ++i) {
        if (valid_utf8(words_[i])) continue;
        line_.clear();
        refuse(i, {"event-value", fmt::format("word {} is not UTF-8 text", i + 1), "text in UTF-8", "",
                   "Type it again, or set the terminal to UTF-8."});
    }
    take_minutes();
}

void Input::take_minutes() {
    if (words_.empty() || !words_.back().starts_with(minutes_key)) return;
    const std::string number = words_.back().substr(minutes_key.size());
    minutes_ = parse_number(number);
    if (!minutes_ || *minutes_ < 0 || *minutes_ > most_minutes) {
        refuse(words_.size() - 1,
               {"event-value", fmt::format("'{}' is no number of minutes", number),
                fmt::format("a number from 0 to {}", most_minutes), "", "For example: minutes=7"});
    }
    words_.pop_back();
}

const std::string& Input::peek() const {
    static const std::string nothing;
    return done() ? nothing : words_[at_];
}

const std::string& Input::take(const std::string& expected, const std::string& next_step) {
    if (done()) refuse(at_, {"event-word-missing", "a word is missing at the end", expected, "", next_step});
    return words_[at_++];
}

std::string Input::take_rest() {
    const std::vector<std::string> rest(words_.begin() + static_cast<std::ptrdiff_t>(at_), words_.end());
    at_ = words_.size();
    return join(rest, " ");
}

void Input::require_done(const std::string& after) const {
    if (done()) return;
    refuse(at_, {"event-word-extra", fmt::format("'{}' is one word too many", words_[at_]),
                 fmt::format("nothing more after {}", after), "",
                 "Leave it out; free words go into `remark` or behind `seen` and `repair`."});
}

void Input::refuse(std::size_t word, Trouble trouble) const {
    std::size_t column = 1;
    for (std::size_t i = 0; i < std::min(word, words_.size()); ++i) column += display_width(words_[i]) + 1;
    Finding finding;
    finding.id = std::move(trouble.id);
    finding.location = {"input", 1, column};
    finding.source_line = line_;
    finding.message = with_short_words(std::move(trouble.message), words_);
    finding.expected = std::move(trouble.expected);
    finding.nearest = std::move(trouble.nearest);
    finding.next_step = std::move(trouble.next_step);
    std::vector<Finding> findings{std::move(finding)};
    if (line_of(line_, 1) != line_) quote_lines(findings, line_);
    throw InputError(std::move(findings));
}

}  // namespace halfsplit::job
