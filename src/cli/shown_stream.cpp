#include "cli/shown_stream.hpp"

#include "halfsplit/base/text.hpp"

#include <algorithm>

namespace halfsplit::cli {

namespace {

constexpr std::string_view bold_begins = "\x1b[1m", bold_ends = "\x1b[0m";

// How many bytes at the end begin a character that is not whole yet.
std::size_t unfinished(std::string_view text) {
    for (std::size_t back = 1; back <= std::min<std::size_t>(3, text.size()); ++back) {
        const auto byte = static_cast<unsigned char>(text[text.size() - back]);
        if ((byte & 0xC0U) == 0x80U) continue;
        const std::size_t length = byte >= 0xF0U ? 4 : byte >= 0xE0U ? 3 : byte >= 0xC0U ? 2 : 1;
        return length > back ? back : 0;
    }
    return 0;
}

}  // namespace

ShownStream::ShownStream(std::ostream& target, bool emphasis)
    : std::ostream(static_cast<std::streambuf*>(this)), target_(target), emphasis_(emphasis) {}

ShownStream::~ShownStream() {
    target_ << printable_lines(held_);
}

int ShownStream::overflow(int c) {
    if (c == std::streambuf::traits_type::eof()) return std::streambuf::traits_type::not_eof(c);
    const char byte = std::streambuf::traits_type::to_char_type(c);
    return xsputn(&byte, 1) == 1 ? c : std::streambuf::traits_type::eof();
}

std::streamsize ShownStream::xsputn(const char* text, std::streamsize size) {
    std::string all = std::move(held_) + std::string(text, static_cast<std::size_t>(size));
    const std::size_t whole = all.size() - unfinished(all);
    held_ = all.substr(whole);
    all.resize(whole);
    pass(all);
    return target_ ? size : 0;
}

int ShownStream::sync() {
    target_.flush();
    return target_ ? 0 : -1;
}

void ShownStream::pass(std::string_view text) {
    while (emphasis_) {
        const std::size_t at = std::min(text.find(bold_begins), text.find(bold_ends));
        if (at == std::string_view::npos) break;
        target_ << printable_lines(text.substr(0, at)) << text.substr(at, bold_begins.size());
        text.remove_prefix(at + bold_begins.size());
    }
    target_ << printable_lines(text);
}

}  // namespace halfsplit::cli
