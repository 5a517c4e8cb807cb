// Lines that start with a label in a column of its own; what follows is wrapped beside it.
#pragma once

#include "halfsplit/base/text.hpp"
#include "halfsplit/report/step_text.hpp"

#include <fmt/format.h>

#include <string>
#include <string_view>

namespace halfsplit::report {

class StepSheet {
  public:
    explicit StepSheet(const Screen& screen) : screen_(screen) {}

    void add(std::string_view label, const std::string& text, bool strong = false) {
        if (text.empty()) return;
        const std::string column = std::string(label) + (label.size() < label_width ? "" : " ");
        std::string lines =
            wrap(fmt::format("{:<{}}{}", column, label_width, text), screen_.columns, label_width);
        if (strong && screen_.emphasis) lines = "\x1b[1m" + lines + "\x1b[0m";
        text_ += lines + "\n";
    }
    void add_plain(const std::string& text) { text_ += wrap(text, screen_.columns) + "\n"; }
    void add_raw(const std::string& text) { text_ += text; }
    const std::string& text() const { return text_; }

  private:
    static constexpr std::size_t label_width = 7;
    Screen screen_;
    std::string text_;
};

}  // namespace halfsplit::report
