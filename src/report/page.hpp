// Lines of text for a screen of so many columns: headings, and labels in a column of their own with text
// beside them.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace halfsplit::report {

class Page {
  public:
    explicit Page(std::size_t columns) : columns_(columns < 30 ? 30 : columns) {}

    // A line of its own in capitals, after an empty line.
    void heading(std::string_view words);
    // Text wrapped from `indent` on.
    void paragraph(std::string_view text, std::size_t indent = 0);
    // A label at `indent`, the text wrapped beside it from `indent` + `width` on. Nothing for an empty text.
    void labelled(std::string_view label, std::string_view text, std::size_t indent, std::size_t width);

    const std::string& text() const { return text_; }

  private:
    std::size_t columns_;
    std::string text_;
};

}  // namespace halfsplit::report
