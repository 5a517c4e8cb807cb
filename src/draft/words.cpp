#include "draft/words.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "harness/colours.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::draft {

namespace {

bool decimal_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r';
}

std::size_t find_comma(std::string_view line) {
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] != ',') continue;
        const bool decimal =
            i > 0 && i + 1 < line.size() && decimal_digit(line[i - 1]) && decimal_digit(line[i + 1]);
        if (!decimal) return i;
    }
    return std::string_view::npos;
}

Word trimmed_word(std::string_view line, std::size_t from, std::size_t to, std::size_t number,
                  std::size_t first_column) {
    while (from < to && is_blank(line[from])) ++from;
    while (to > from && is_blank(line[to - 1])) --to;
    return {std::string(line.substr(from, to - from)),
            {number, first_column + display_width(line.substr(0, from))}};
}

// The text before a unit, where it ends in one; small and large letters alike.
std::optional<std::string_view> before(std::string_view text, std::string_view unit) {
    if (text.size() <= unit.size()) return std::nullopt;
    const std::size_t length = text.size() - unit.size();
    if (lower(text.substr(length)) != unit) return std::nullopt;
    return text.substr(0, length);
}

std::optional<double> number_before(std::string_view text, std::string_view unit) {
    const auto digits = before(text, unit);
    return digits ? read_plain(*digits) : std::nullopt;
}

struct Mark {
    std::string_view start, mark;
};

constexpr std::array<Mark, 5> marks{
    {{"flex", "flexing"}, {"wet", "wet"}, {"work", "worked-on"}, {"add", "add-on"}, {"unver", "unverified"}}};

}  // namespace

SheetLine split_line(std::string_view line, std::size_t number) {
    SheetLine result;
    result.number = number;
    const std::size_t comma = find_comma(line);
    if (comma != std::string_view::npos) {
        result.text = trimmed_word(line, comma + 1, line.size(), number, 1);
    }
    const std::string_view words = line.substr(0, comma);
    for (std::size_t i = 0; i < words.size();) {
        if (is_blank(words[i])) {
            ++i;
            continue;
        }
        std::size_t end = i;
        while (end < words.size() && !is_blank(words[end])) ++end;
        result.words.push_back(trimmed_word(line, i, end, number, 1));
        if (result.words.size() == 1) result.rest = trimmed_word(line, end, line.size(), number, 1);
        i = end;
    }
    return result;
}

std::vector<Word> split_text(const Word& text, char separator) {
    std::vector<Word> parts;
    const std::string_view all = text.text;
    for (std::size_t start = 0; start <= all.size();) {
        const std::size_t end = std::min(all.find(separator, start), all.size());
        parts.push_back(trimmed_word(all, start, end, text.at.line, text.at.column));
        start = end + 1;
    }
    return parts;
}

Json number_to_json(double value) {
    const bool whole = std::floor(value) == value && std::abs(value) < 1e15;
    return whole ? Json(static_cast<long long>(value)) : Json(value);
}

std::string short_number(double value) {
    std::string text = fmt::format("{}", value);
    return text.rfind("0.", 0) == 0 ? text.substr(1) : text;
}

std::optional<double> read_plain(std::string_view text) {
    std::string digits(text);
    if (std::none_of(digits.begin(), digits.end(), decimal_digit)) return std::nullopt;
    std::replace(digits.begin(), digits.end(), ',', '.');
    return parse_number(digits.front() == '.' ? "0" + digits : digits);
}

std::optional<double> read_length(std::string_view text) {
    if (const auto centimetres = number_before(text, "cm")) return *centimetres / 100;
    if (const auto metres = number_before(text, "m")) return metres;
    return read_plain(text);
}

std::optional<double> read_ohm(std::string_view text) {
    return number_before(text, "ohm");
}

std::optional<double> read_rate(std::string_view text) {
    if (const auto thousands = number_before(text, "k")) return *thousands * 1e3;
    if (const auto millions = number_before(text, "m")) return *millions * 1e6;
    return read_plain(text);
}

std::optional<Json> read_gauge(std::string_view text) {
    if (const auto section = number_before(text, "mm2"))
        return Json{{"section_mm2", number_to_json(*section)}};
    if (const auto gauge = number_before(text, "awg")) return Json{{"awg", number_to_json(*gauge)}};
    return std::nullopt;
}

std::optional<Minutes> read_minutes(std::string_view text) {
    auto figures = before(text, "'");
    if (!figures) figures = before(text, "min");
    if (!figures) return std::nullopt;
    const std::size_t slash = figures->find('/');
    Minutes minutes;
    if (slash != 0) {
        minutes.probe = read_plain(figures->substr(0, slash));
        if (!minutes.probe) return std::nullopt;
    }
    if (slash != std::string_view::npos) {
        minutes.look = read_plain(figures->substr(slash + 1));
        if (!minutes.look) return std::nullopt;
    }
    return minutes;
}

std::optional<FaceSize> read_face(std::string_view text) {
    const std::size_t cross = text.find_first_of("xX");
    if (cross == 0 || cross == std::string_view::npos || cross + 1 == text.size()) return std::nullopt;
    const auto all_digits = [](std::string_view part) {
        return part.size() <= 3 && std::all_of(part.begin(), part.end(), decimal_digit);
    };
    const std::string_view rows = text.substr(0, cross);
    const std::string_view columns = text.substr(cross + 1);
    if (!all_digits(rows) || !all_digits(columns)) return std::nullopt;
    return FaceSize{static_cast<std::size_t>(*read_plain(rows)),
                    static_cast<std::size_t>(*read_plain(columns))};
}

std::optional<Pair> read_pair(std::string_view text) {
    const std::size_t slash = text.find('/');
    if (slash == 0 || slash == std::string_view::npos || slash + 1 == text.size()) return std::nullopt;
    if (text.find('/', slash + 1) != std::string_view::npos) return std::nullopt;
    return Pair{std::string(text.substr(0, slash)), std::string(text.substr(slash + 1))};
}

std::optional<harness::Colour> read_colour(std::string_view text) {
    if (text == "?") return harness::Colour{};
    const auto both = [](std::string_view base, std::string_view stripe) -> std::optional<harness::Colour> {
        harness::Colour colour{harness::colour_code(base), harness::colour_code(stripe)};
        if (colour.base.empty() || colour.stripe.empty()) return std::nullopt;
        return colour;
    };
    const std::size_t dash = text.find('-');
    if (dash != std::string_view::npos) return both(text.substr(0, dash), text.substr(dash + 1));
    if (!harness::colour_code(text).empty()) return harness::Colour{harness::colour_code(text), ""};
    for (const std::size_t length : {std::size_t{2}, std::size_t{4}}) {
        if (text.size() <= length) break;
        if (auto colour = both(text.substr(0, length), text.substr(length))) return colour;
    }
    return std::nullopt;
}

std::string colour_word(const harness::Colour& colour) {
    if (colour.base.empty()) return "?";
    const std::string joined = lower(colour.base) + lower(colour.stripe);
    return read_colour(joined) == colour ? joined : lower(colour.base) + "-" + lower(colour.stripe);
}

std::string read_mark(std::string_view text) {
    const std::string word = lower(text);
    for (const Mark& mark : marks) {
        const bool begun = word.size() >= mark.start.size() && mark.mark.rfind(word, 0) == 0;
        if (begun) return std::string(mark.mark);
    }
    if (word == "workedon") return "worked-on";
    return word == "addon" ? "add-on" : "";
}

const std::vector<std::string>& mark_words() {
    static const std::vector<std::string> all{"flexing", "wet", "worked-on", "add-on", "unverified"};
    return all;
}

}  // namespace halfsplit::draft
