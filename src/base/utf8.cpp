// Characters and columns of UTF-8 text.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>

namespace halfsplit {

namespace {

struct Character {
    char32_t code = 0;
    std::size_t bytes = 0;  // 0: not valid UTF-8 here
};

// The length a lead byte announces (Unicode 15, table 3-7); 0 for a byte that leads nothing.
std::size_t announced_length(unsigned char lead) {
    if (lead < 0x80) return 1;
    if (lead >= 0xC2 && lead <= 0xDF) return 2;
    if (lead >= 0xE0 && lead <= 0xEF) return 3;
    if (lead >= 0xF0 && lead <= 0xF4) return 4;
    return 0;
}

Character character_at(std::string_view text, std::size_t at) {
    const auto lead = static_cast<unsigned char>(text[at]);
    const std::size_t length = announced_length(lead);
    if (length == 0 || at + length > text.size()) return {};
    if (length == 1) return {lead, 1};
    char32_t code = lead & (0x7FU >> length);
    for (std::size_t i = 1; i < length; ++i) {
        const auto next = static_cast<unsigned char>(text[at + i]);
        if ((next & 0xC0U) != 0x80U) return {};
        code = (code << 6U) | (next & 0x3FU);
    }
    const bool overlong = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000);
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (overlong || surrogate || code > 0x10FFFF) return {};
    return {code, length};
}

// Controls (C0, DEL, C1), line separators, and what changes the direction of text (Unicode 15, property
// Bidi_Control) or of digits.
bool upsets_a_terminal(char32_t code) {
    return code < 0x20 || (code >= 0x7F && code < 0xA0) || code == 0x200E || code == 0x200F ||
           code == 0x061C || (code >= 0x2028 && code <= 0x202E) || (code >= 0x2066 && code <= 0x206F) ||
           code == 0xFEFF;
}

// The text with what is made of each character that upsets a terminal; broken bytes are such, one by one.
template <typename Replace>
std::string with_upsetting(std::string_view text, Replace replace) {
    std::string result;
    result.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const Character here = character_at(text, at);
        const std::string_view bytes = text.substr(at, std::max<std::size_t>(here.bytes, 1));
        if (here.bytes == 0 || upsets_a_terminal(here.code))
            result += replace(here, bytes);
        else
            result += bytes;
        at += bytes.size();
    }
    return result;
}

// Offset just after the first `count` characters from `at`.
std::size_t skip_characters(std::string_view text, std::size_t at, std::size_t count) {
    for (; count > 0 && at < text.size(); --count) {
        ++at;
        while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U) ++at;
    }
    return at;
}

bool is_unit(std::string_view word) {
    constexpr std::array<std::string_view, 10> units{"%",    "min", "h", "ohm", "kohm",
                                                     "Mohm", "V",   "m", "mm",  "bit"};
    const std::size_t last = word.find_last_not_of(",.;:)");
    word = word.substr(0, last == std::string_view::npos ? 0 : last + 1);
    return std::find(units.begin(), units.end(), word) != units.end();
}

// Where the word that starts at `from` ends. A figure and its unit are one word, where they fit on a line.
std::size_t end_of_word(std::string_view line, std::size_t from, std::size_t width) {
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    const std::size_t end = std::min(line.find(' ', from), line.size());
    const std::size_t first = line[from] == '(' ? from + 1 : from;
    if (first >= end || !is_digit(line[first]) || !is_digit(line[end - 1]) || end == line.size()) return end;
    const std::size_t unit_end = std::min(line.find(' ', end + 1), line.size());
    const bool joined = is_unit(line.substr(end + 1, unit_end - end - 1)) && unit_end - from <= width;
    return joined ? unit_end : end;
}

// One line of the input, wrapped onto the end of `out`.
void wrap_line(std::string_view line, std::size_t width, std::size_t indent, std::string& out) {
    std::size_t lead = 0;
    while (lead < line.size() && line[lead] == ' ') ++lead;
    lead = lead < width ? lead : 0;
    out.append(lead, ' ');
    std::size_t column = lead;
    bool first_word = true;
    const auto break_line = [&] {
        out += '\n';
        out.append(indent, ' ');
        column = indent;
    };
    std::size_t next = line.find_first_not_of(' ');
    std::size_t gap = 0;  // blanks before the word: kept within a line, gone where it breaks
    while (next != std::string_view::npos) {
        const std::size_t stop = end_of_word(line, next, width - indent);
        const std::string word(line.substr(next, stop - next));
        const std::size_t size = display_width(word);
        if (!first_word) {
            if (column + gap + size <= width) {
                out.append(gap, ' ');
                column += gap;
            } else {
                break_line();
            }
        }
        next = line.find_first_not_of(' ', stop);
        gap = next == std::string_view::npos ? 0 : next - stop;
        first_word = false;
        std::size_t at = 0;
        for (std::size_t left = size; left > 0;) {
            if (column >= width) break_line();
            const std::size_t piece = left < width - column ? left : width - column;
            const std::size_t end = skip_characters(word, at, piece);
            out.append(word, at, end - at);
            at = end;
            column += piece;
            left -= piece;
        }
    }
}

}  // namespace

std::size_t find_invalid_utf8(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size()) {
        if (static_cast<unsigned char>(text[at]) < 0x80U) {  // nearly all of it
            ++at;
            continue;
        }
        const Character here = character_at(text, at);
        if (here.bytes == 0) return at;
        at += here.bytes;
    }
    return std::string_view::npos;
}

bool valid_utf8(std::string_view text) {
    return find_invalid_utf8(text) == std::string_view::npos;
}

std::size_t display_width(std::string_view text) {
    std::size_t columns = 0;
    for (const char c : text) columns += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
    return columns;
}

std::string printable(std::string_view text) {
    return with_upsetting(text, [](const Character& here, std::string_view) {
        return here.code == '\t' ? std::string(" ") : std::string("?");
    });
}

std::string printable_lines(std::string_view text) {
    return with_upsetting(text, [](const Character& here, std::string_view bytes) {
        return here.code == '\t' || here.code == '\n' ? std::string(bytes) : std::string("?");
    });
}

std::string escaped_json(std::string_view text) {
    return with_upsetting(text, [](const Character& here, std::string_view bytes) {
        if (here.bytes == 0 || here.code == '\t' || here.code == '\n') return std::string(bytes);
        return fmt::format("\\u{:04x}", static_cast<unsigned>(here.code));
    });
}

std::string wrap(std::string_view text, std::size_t width, std::size_t indent) {
    if (width == 0) width = 1;
    if (indent >= width) indent = width - 1;
    std::string result;
    std::size_t at = 0;
    while (true) {
        const std::size_t end = text.find('\n', at);
        wrap_line(text.substr(at, end == std::string_view::npos ? end : end - at), width, indent, result);
        if (end == std::string_view::npos) return result;
        result += '\n';
        at = end + 1;
    }
}

}  // namespace halfsplit
