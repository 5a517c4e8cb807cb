// The lines of a card for any width: what stands before its steps, each step, and what stands after them. The
// screen and the sheet show the same.
#pragma once

#include "halfsplit/advice/card.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::report {

struct CardLine {
    std::string text;
    bool strong = false;           // nothing is told by it alone
    std::size_t strong_bytes = 0;  // so many at the beginning are, where not all of it is
};
using CardLines = std::vector<CardLine>;

// Cautions of all steps, each once; steps refer to them by letter.
std::vector<std::string> cautions_of(const advice::Card& card);

CardLines head_lines(const advice::Card& card, const std::string& subject, std::size_t width);
CardLines step_lines(const advice::CardStep& step, const std::vector<std::string>& cautions,
                     std::size_t width);
CardLines foot_lines(const advice::Card& card, std::size_t width);
// To write a reading on.
std::string blank_reading(std::size_t width);

}  // namespace halfsplit::report
