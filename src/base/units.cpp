#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <limits>

namespace halfsplit {

namespace {

constexpr double minutes_per_hour = 60;

// Three significant digits, at most three after the point, no trailing zeros, never an exponent.
std::string three_digits(double value) {
    if (value == 0) return "0";
    const int magnitude = static_cast<int>(std::floor(std::log10(std::abs(value))));
    const int decimals = std::min(3, std::max(0, 2 - magnitude));
    if (magnitude > 2) {
        const double step = std::pow(10.0, magnitude - 2);
        value = std::round(value / step) * step;
    }
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (decimals > 0) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

struct Prefix {
    double factor;
    const char* symbol;
};

// The largest prefix that leaves at least 1 after rounding: 999.7 is "1 kohm", not "1000 ohm".
std::string with_prefix(double value, const char* unit) {
    constexpr std::array<Prefix, 3> prefixes{{{1e9, "G"}, {1e6, "M"}, {1e3, "k"}}};
    for (const Prefix& prefix : prefixes) {
        if (std::abs(value) >= 0.9995 * prefix.factor)
            return three_digits(value / prefix.factor) + " " + prefix.symbol + unit;
    }
    return three_digits(value) + " " + unit;
}

std::string_view trim(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

bool ends_with_ignoring_case(std::string_view text, std::string_view lower_case_ending) {
    if (text.size() < lower_case_ending.size()) return false;
    text.remove_prefix(text.size() - lower_case_ending.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i] >= 'A' && text[i] <= 'Z' ? static_cast<char>(text[i] - 'A' + 'a') : text[i];
        if (c != lower_case_ending[i]) return false;
    }
    return true;
}

std::string_view without_ohm(std::string_view text) {
    for (const std::string_view unit : {"ohms", "ohm", "\u03a9", "\u2126"}) {
        if (ends_with_ignoring_case(text, unit)) return trim(text.substr(0, text.size() - unit.size()));
    }
    return text;
}

}  // namespace

std::string format_ohm(double ohm) {
    if (std::isinf(ohm)) return "OL";
    return with_prefix(ohm, "ohm");
}

std::string format_volt(double volt) {
    if (std::isinf(volt)) return "OL";
    return three_digits(volt) + " V";
}

std::string format_farad(double farad) {
    constexpr std::array<Prefix, 3> prefixes{{{1e-6, "uF"}, {1e-9, "nF"}, {1e-12, "pF"}}};
    for (const Prefix& prefix : prefixes) {
        if (farad >= 0.9995 * prefix.factor) return three_digits(farad / prefix.factor) + " " + prefix.symbol;
    }
    return "0 pF";
}

std::string format_metres(double metres) {
    return fmt::format("{:.2f} m", metres);
}

std::string format_minutes(double minutes) {
    if (minutes == 0) return "0 min";
    if (minutes < 0.5) return "under 1 min";
    if (std::isinf(minutes)) return "without end";
    const double whole = std::round(minutes);
    const double hours = std::floor(whole / minutes_per_hour);
    const double rest = whole - hours * minutes_per_hour;
    if (hours == 0) return fmt::format("{:.0f} min", rest);
    if (rest == 0) return fmt::format("{:.0f} h", hours);
    return fmt::format("{:.0f} h {:.0f} min", hours, rest);
}

std::string format_chance(double probability) {
    const double percent = 100 * probability;
    if (percent == 0) return "0 %";
    if (percent < 0.1) return "under 0.1 %";
    if (percent < 0.95) return fmt::format("{:.1f} %", percent);
    if (percent >= 100) return "100 %";
    if (percent > 99.9) return "over 99.9 %";
    if (percent >= 99.05) return fmt::format("{:.1f} %", percent);
    return fmt::format("{:.0f} %", percent);
}

std::optional<double> parse_number(std::string_view text) {
    text = trim(text);
    // from_chars alone would take "inf" and "nan".
    if (text.find_first_not_of("-.0123456789") != std::string_view::npos) return std::nullopt;
    double value = 0;
    const auto [end, error] =
        std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

std::optional<double> parse_ohm(std::string_view text) {
    text = trim(text);
    if (text.size() == 2 && ends_with_ignoring_case(text, "ol"))
        return std::numeric_limits<double>::infinity();
    text = without_ohm(text);
    if (text.empty()) return std::nullopt;
    double factor = 1;
    // A small m would be taken for milli by one reader and mega by another: refused.
    if (text.back() == 'k' || text.back() == 'K') factor = 1e3;
    if (text.back() == 'M') factor = 1e6;
    if (factor > 1) text.remove_suffix(1);
    const std::optional<double> number = parse_number(text);
    if (!number || std::signbit(*number) || !std::isfinite(*number * factor)) return std::nullopt;
    return *number * factor;
}

std::optional<double> parse_farad(std::string_view text) {
    text = trim(text);
    if (ends_with_ignoring_case(text, "f")) text.remove_suffix(1);
    constexpr std::array<Prefix, 5> prefixes{
        {{1e-12, "p"}, {1e-9, "n"}, {1e-6, "u"}, {1e-6, "\u00b5"}, {1e-6, "\u03bc"}}};
    for (const Prefix& prefix : prefixes) {
        if (!ends_with_ignoring_case(text, prefix.symbol)) continue;
        text.remove_suffix(std::string_view(prefix.symbol).size());
        const std::optional<double> number = parse_number(text);
        if (!number || std::signbit(*number)) return std::nullopt;
        return *number * prefix.factor;
    }
    return std::nullopt;
}

std::optional<double> parse_volt(std::string_view text) {
    text = trim(text);
    if (!ends_with_ignoring_case(text, "v")) return std::nullopt;
    text.remove_suffix(1);
    return parse_number(text);
}

}  // namespace halfsplit
