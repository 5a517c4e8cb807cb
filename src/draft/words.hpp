// The words of a line of a wire sheet, and the values that words can be.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <nlohmann/json.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::draft {

using Json = nlohmann::ordered_json;

// One-based line and column in the sheet; columns count characters.
struct At {
    std::size_t line = 0, column = 0;
};

struct Word {
    std::string text;
    At at;
};

// "1.1 X1 4/5 2x10, dash loom to body loom": the words before the first comma, and what stands behind it. A
// comma between two digits is a decimal point.
struct SheetLine {
    std::size_t number = 0;
    std::vector<Word> words;
    std::optional<Word> text;
    Word rest;  // everything behind the first word, commas and all
};

SheetLine split_line(std::string_view line, std::size_t number);

// "X1, dash side, body side" at its commas, without the blanks around; each with its place.
std::vector<Word> split_text(const Word& text, char separator);

// A whole number stays one in the file.
Json number_to_json(double value);
// "0.35" as ".35".
std::string short_number(double value);

using Pair = std::array<std::string, 2>;  // cavities by line

struct Minutes {
    std::optional<double> probe, look;
};

struct FaceSize {
    std::size_t rows = 0, columns = 0;
};

// Each is empty where the word is nothing of the kind.
std::optional<double> read_plain(std::string_view text);     // 0.6  .6  0,6
std::optional<double> read_length(std::string_view text);    // .6  0.6m  60cm; metres
std::optional<double> read_ohm(std::string_view text);       // 120ohm
std::optional<double> read_rate(std::string_view text);      // 500k  1M  125000
std::optional<Json> read_gauge(std::string_view text);       // .35mm2 or 20awg, as members of a run
std::optional<Minutes> read_minutes(std::string_view text);  // 2/4'  /4'  2'  2/4min
std::optional<FaceSize> read_face(std::string_view text);    // 2x10
std::optional<Pair> read_pair(std::string_view text);        // 4/5

// "buye", "bu-ye", "gnye" (the code), "gn-ye" (green with a yellow stripe), "?" (not stated).
std::optional<harness::Colour> read_colour(std::string_view text);
std::string colour_word(const harness::Colour& colour);

// "flexing", "flex", "worked", ... as the harness file has it; empty when it is no mark.
std::string read_mark(std::string_view text);
const std::vector<std::string>& mark_words();

}  // namespace halfsplit::draft
