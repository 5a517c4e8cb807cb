#include "draft/csv_values.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/base/wire_gauge.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace halfsplit::draft {

namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// The letters at the end of a text in small letters, brackets left out: "Length (mm)" gives "mm".
std::string last_word(std::string_view text) {
    std::string word;
    for (const char c : lower(text)) {
        if (c >= 'a' && c <= 'z') {
            word += c;
        } else if (c == ' ' || c == '(' || c == '[' || c == '/' || is_digit(c) || c == '.' || c == ',') {
            word.clear();
        }
    }
    return word;
}

// The figure in front of the letters.
std::string_view before_unit(std::string_view text) {
    const std::size_t end = text.find_last_of("0123456789");
    return end == std::string_view::npos ? text : text.substr(0, end + 1);
}

std::string without_blanks(std::string_view text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text.substr(i, 2) == "\xC2\xA0") {  // a blank that does not break
            ++i;
        } else if (text[i] != ' ') {
            plain += text[i];
        }
    }
    return plain;
}

void replace_all(std::string& text, std::string_view what, std::string_view by) {
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
        text.replace(at, what.size(), by);
}

}  // namespace

std::optional<double> csv_number(std::string_view text, bool comma_separates) {
    std::string plain = without_blanks(text);
    const std::size_t comma = plain.rfind(',');
    const std::size_t point = plain.rfind('.');
    if (comma != std::string::npos && point != std::string::npos) {
        const char thousands = comma < point ? ',' : '.';
        std::erase(plain, thousands);
    } else if (comma != std::string::npos && comma_separates && plain.size() - comma == 4) {
        return std::nullopt;
    }
    std::replace(plain.begin(), plain.end(), ',', '.');
    const std::optional<double> number = parse_number(plain);
    return number && *number >= 0 ? number : std::nullopt;
}

double unit_of_length(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, double>, 10> units{{{"mm", 0.001},
                                                                         {"cm", 0.01},
                                                                         {"m", 1},
                                                                         {"metre", 1},
                                                                         {"metres", 1},
                                                                         {"meter", 1},
                                                                         {"meters", 1},
                                                                         {"in", 0.0254},
                                                                         {"inch", 0.0254},
                                                                         {"ft", 0.3048}}};
    const std::string word = last_word(text);
    for (const auto& [unit, metres] : units) {
        if (word == unit) return metres;
    }
    return 0;
}

CsvFigure csv_length(std::string_view cell, double heading_unit, bool comma_separates) {
    if (cell.empty() || cell == "-") return {};
    const double own_unit = unit_of_length(cell);
    const std::string_view figure = own_unit > 0 ? before_unit(cell) : cell;
    const std::optional<double> number = csv_number(figure, comma_separates);
    if (!number) return {0, false, true};
    const double unit = own_unit > 0 ? own_unit : heading_unit;
    return {*number * (unit > 0 ? unit : 1), true, unit > 0};
}

CsvFigure csv_section(std::string_view cell, bool gauge, bool comma_separates) {
    if (cell.empty() || cell == "-") return {};
    std::string text = lower(cell);
    replace_all(text, "mm²", "");
    replace_all(text, "mm2", "");
    replace_all(text, "mm^2", "");
    const bool square = text.size() < cell.size();
    const bool says_gauge = text.find("awg") != std::string::npos;
    replace_all(text, "awg", "");
    const std::optional<double> number = csv_number(text, comma_separates);
    if (!number) return {0, false, true};
    if (!square && (says_gauge || gauge)) {
        if (*number > 40) return {0, false, true};
        return {awg_section_mm2(*number), true, true};
    }
    if (*number != 0 && (*number < 0.05 || *number > 120)) return {0, false, true};
    return {*number, true, square};
}

}  // namespace halfsplit::draft
