#include "report/review_links.hpp"

#include <fmt/format.h>

#include "report/html.hpp"

#include <charconv>

namespace halfsplit::report {

namespace {

constexpr std::string_view before_number = "ecord ";  // with a capital or without

job::Sequence number_at(std::string_view text) {
    job::Sequence number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    return error == std::errc() ? number : 0;
}

}  // namespace

std::string anchor_of(job::Sequence sequence) {
    return fmt::format("record-{}", sequence);
}

std::string Links::number(job::Sequence sequence) const {
    if (on_the_page_.count(sequence) == 0) return std::to_string(sequence);
    return fmt::format("<a href=\"#{}\" aria-label=\"record {}\">{}</a>", anchor_of(sequence), sequence,
                       sequence);
}

std::string Links::text(std::string_view words) const {
    const std::string plain = shown(words);
    std::string result;
    std::size_t done = 0;
    for (std::size_t at = plain.find(before_number); at != std::string::npos;
         at = plain.find(before_number, done)) {
        const std::size_t from = at + before_number.size();
        const job::Sequence sequence = number_at(std::string_view(plain).substr(from));
        result.append(plain, done, from - done);
        done = from;
        if (on_the_page_.count(sequence) == 0) continue;
        result += number(sequence);
        done += std::to_string(sequence).size();
    }
    return result.append(plain, done);
}

}  // namespace halfsplit::report
