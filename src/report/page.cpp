#include "report/page.hpp"

#include "halfsplit/base/text.hpp"

#include <array>

namespace halfsplit::report {

namespace {

// Stands for a space that no line may be broken at; printable text has none of it.
constexpr char no_break = '\x1f';

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// A figure stays with its unit.
std::string glued(std::string text) {
    constexpr std::array<std::string_view, 8> units{"%", "min", "h", "ohm", "kohm", "Mohm", "bit", "V"};
    for (std::size_t at = 1; at + 1 < text.size(); ++at) {
        if (text[at] != ' ' || !is_digit(text[at - 1])) continue;
        const std::string_view rest = std::string_view(text).substr(at + 1);
        for (const std::string_view unit : units) {
            if (rest.substr(0, unit.size()) != unit) continue;
            const char next = rest.size() > unit.size() ? rest[unit.size()] : ' ';
            if (std::string_view(" ,;.:)").find(next) != std::string_view::npos) text[at] = no_break;
        }
    }
    return text;
}

std::string unglued(std::string text) {
    for (char& c : text) {
        if (c == no_break) c = ' ';
    }
    return text;
}

}  // namespace

void Page::heading(std::string_view words) {
    if (!text_.empty()) text_ += '\n';
    text_ += wrap(words, columns_) + '\n';
}

void Page::paragraph(std::string_view text, std::size_t indent) {
    text_ += unglued(wrap(std::string(indent, ' ') + glued(printable(text)), columns_, indent)) + '\n';
}

void Page::labelled(std::string_view label, std::string_view text, std::size_t indent, std::size_t width) {
    if (text.empty()) return;
    const std::size_t start = text_.size() + indent;
    paragraph(text, indent + width);
    // The label goes where the first line's own indent stood.
    text_.replace(start, label.size(), label);
}

}  // namespace halfsplit::report
