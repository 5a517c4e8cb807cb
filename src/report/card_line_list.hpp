// Lines of a card as they are put together.
#pragma once

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "report/card_lines.hpp"
#include "report/page.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

namespace halfsplit::report {

inline constexpr std::string_view screen_words = "come back to the screen";

// Of a caution of the card, by its place among all.
inline char caution_letter(std::size_t number) {
    return static_cast<char>('a' + std::min<std::size_t>(number, 25));
}

class LineList {
  public:
    explicit LineList(std::size_t width) : width_(width) {}

    // A label in a column of its own.
    void add_labelled(std::string_view label, const std::string& text, bool strong = false) {
        Page page(width_);
        page.labelled(label, text, 0, label_width);
        take(page.text(), strong);
    }
    void add(const std::string& text, std::size_t indent, bool strong = false) {
        if (text.empty()) return;
        Page page(width_);
        page.paragraph(text, indent);
        take(page.text(), strong);
    }
    // The first line from the left edge and begun by a number, the others further in.
    void add_numbered(const std::string& number, const std::string& text, std::size_t indent, bool strong) {
        const std::size_t first = lines_.size();
        take(wrap(number + printable(text), width_, indent) + '\n', strong);
        lines_[first].strong_bytes = number.size();
    }
    CardLines lines() && { return std::move(lines_); }

  private:
    void take(const std::string& text, bool strong) {
        for (std::size_t at = 0; at < text.size();) {
            const std::size_t end = text.find('\n', at);
            lines_.push_back({text.substr(at, end - at), strong});
            at = end + 1;
        }
    }

    static constexpr std::size_t label_width = 8;
    std::size_t width_;
    CardLines lines_;
};

}  // namespace halfsplit::report
