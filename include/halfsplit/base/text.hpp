// Words and columns: nearest names, display width, wrapping. Knows nothing of harnesses.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

// The candidate with the least edit distance to `name` (case ignored), or empty when none is near
// (distance above a third of the longer length, at least 1). Ties: the first candidate wins.
std::string nearest_name(std::string_view name, const std::vector<std::string>& candidates);

// The one candidate that `name` can only be a slip of: case aside, one character more, less, other, or
// exchanged with its neighbour, none of them a digit, and no other candidate as near. Empty where there is
// none, and for names of fewer than three characters.
std::string certain_name(std::string_view name, const std::vector<std::string>& candidates);

// Number of terminal columns of UTF-8 text; each code point counts one (the program prints no wide
// characters).
std::size_t display_width(std::string_view text);

bool valid_utf8(std::string_view text);

// Offset of the first byte that is not part of valid UTF-8; npos when all of it is.
std::size_t find_invalid_utf8(std::string_view text);

// The text with every character that could upset a terminal (controls, direction marks, broken UTF-8) as "?",
// one for one, so that columns stay. Tabs become single spaces.
std::string printable(std::string_view text);
// The same for text of many lines: line ends and tabs stay.
std::string printable_lines(std::string_view text);
// The same for a JSON text: escapes in place of "?", which mean what stood there. Broken UTF-8 stays.
std::string escaped_json(std::string_view text);

// Breaks at spaces so that no line is wider than `width`; the lines that a break begins start with `indent`
// spaces. A figure stays with its unit ("0.6 ohm"). A word longer than the line goes on in the next. Existing
// line ends, and spaces at the start of a line, are kept.
std::string wrap(std::string_view text, std::size_t width, std::size_t indent = 0);

std::string join(const std::vector<std::string>& parts, std::string_view separator);

// "a", "a and b", "a, b and c".
std::string join_words(const std::vector<std::string>& parts);

// The words between blanks (spaces, tabs, line ends).
// "1 probe", "2 probes".
std::string counted(std::size_t number, std::string_view one);

std::vector<std::string> split_words(std::string_view text);

// A to Z in lower case; every other byte as it is.
std::string lower(std::string_view text);

}  // namespace halfsplit
