#include "value.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/job/words.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <utility>

namespace halfsplit::job {

namespace {

constexpr const char* value_forms = "a value: ohms (0.4, 3.1k, OL), volts (2.5V), o, c, ? or -";
constexpr const char* volt_forms = "a value in volts (2.5 or 2.5V), ? or -";

constexpr std::array<std::pair<std::string_view, Outcome>, 6> outcome_keys{{{"o", Outcome::Open},
                                                                            {"open", Outcome::Open},
                                                                            {"c", Outcome::Closed},
                                                                            {"closed", Outcome::Closed},
                                                                            {"?", Outcome::NotSure},
                                                                            {"-", Outcome::CouldNotReach}}};

bool is_unit(const std::string& word) {
    for (const std::string_view unit :
         {"ohm", "ohms", "kohm", "mohm", "k", "v", "volt", "volts", "\u03a9", "\u2126"}) {
        if (lower(word) == unit) return true;
    }
    return false;
}

// "120 ohm" and "2.5 V" come as two words.
std::string with_unit(Input& input, std::string word) {
    if (!is_unit(input.peek()) || word.find_first_of("0123456789") == std::string::npos) return word;
    const std::string& unit = input.take();
    return word.append(lower(unit).starts_with("volt") ? "V" : unit);
}

// "1e12".
bool has_exponent(const std::string& word) {
    const auto at = lower(word).find('e');
    return at != std::string::npos && at > 0 && parse_ohm(word.substr(0, at)) &&
           parse_number(word.substr(at + 1));
}

std::string what_is_wrong_with(const std::string& word) {
    if (word.starts_with('-') && parse_ohm(word.substr(1)))
        return fmt::format("'{}' is below zero: ohms cannot be, unless something still feeds the bus", word);
    if (lower(word) == "nan" || lower(word) == "inf")
        return fmt::format("'{}' is no figure a meter shows", word);
    if (has_exponent(word)) return fmt::format("'{}' has an exponent, which no meter shows", word);
    if (word.find(',') != std::string::npos)
        return fmt::format("'{}' has a comma, which may stand for a point or for thousands", word);
    if (word.ends_with('m') && parse_ohm(word.substr(0, word.size() - 1)))
        return fmt::format("'{}' has a small m, which may stand for milli or for mega", word);
    return fmt::format("'{}' is not a value", word);
}

std::string advice_on(const std::string& word) {
    if (word.starts_with('-') && parse_ohm(word.substr(1)))
        return "Check that the battery is off and the leads are zeroed, and read again.";
    if (has_exponent(word)) return "Write 3100, 3.1k or 2M, and OL when the meter is over its range.";
    if (word.find(',') != std::string::npos) return "Write 3.1 or 3100.";
    if (word.ends_with('m')) return "Write milliohms as ohms (0.004), and megohms with a large M (2M).";
    return "For example: 0.4 or OL";
}

[[noreturn]] void refuse_high_voltage(const Input& input, double volt) {
    input.refuse_last(
        {"event-high-voltage",
         fmt::format("{} is beyond the bus of a low-voltage vehicle", format_volt(volt)),
         fmt::format("at most {}", format_volt(most_volts)), "",
         "If the meter truly shows this, stop: high-voltage parts are for qualified people only, under the "
         "maker's procedure. If not, type the value again."});
}

}  // namespace

bool looks_like_value(const std::string& word) {
    for (const auto& [key, outcome] : outcome_keys) {
        if (word == key) return true;
    }
    if (parse_ohm(word) || parse_volt(word)) return true;
    const std::string plain = lower(word);
    return plain == "nan" || plain == "inf" ||
           (word.find_first_of("0123456789") <= 1 && word.find_first_of("-.0123456789") == 0);
}

double ohms_in(const Input& input, const std::string& word, const std::string& expected) {
    const std::optional<double> ohm = parse_ohm(word);
    if (!ohm) input.refuse_last({"event-value", what_is_wrong_with(word), expected, "", advice_on(word)});
    if (std::isfinite(*ohm) && *ohm > most_ohms) {
        input.refuse_last({"event-value", fmt::format("{} is more than a meter can show", format_ohm(*ohm)),
                           fmt::format("at most {}, or OL", format_ohm(most_ohms)), "",
                           "Type OL when the meter shows that it is over its range."});
    }
    return *ohm;
}

double number_in(const Input& input, const std::string& word, double most, const std::string& example) {
    const std::optional<double> number = parse_number(word);
    if (number && *number >= 0 && *number <= most) return *number;
    input.refuse_last({"event-value", fmt::format("'{}' is not a number that fits here", word),
                       fmt::format("a number from 0 to {}", most), "", "For example: " + example});
}

namespace {

// "2.5V"; where volts are awaited, "2.5" as well.
std::optional<double> volts_in(const std::string& word, Quantity awaited) {
    const std::optional<double> volt = parse_volt(word);
    return volt || awaited != Quantity::Volt ? volt : parse_number(word);
}

// A buzzer and OL belong to ohms. A figure with its unit says for itself that it is no volts.
void require_volts(const Input& input, const Reading& reading, const std::string& word) {
    const bool says_ohm = parse_ohm(word) && word.find_first_of("0123456789") != std::string::npos;
    const bool no_answer = reading.outcome == Outcome::NotSure || reading.outcome == Outcome::CouldNotReach;
    if (says_ohm || no_answer) return;
    input.refuse_last({"event-value",
                       fmt::format("'{}' is not a value in volts, and volts are awaited here", word),
                       volt_forms, "", "For example: 2.5, or 0 when the meter shows nothing."});
}

}  // namespace

void take_value(Input& input, Reading& reading) {
    const Quantity awaited = std::exchange(reading.quantity, Quantity::Ohm);
    const bool volts = awaited == Quantity::Volt;
    const std::string word = with_unit(
        input,
        input.take(volts ? volt_forms : value_forms, volts ? "For example: 2.5" : "For example: 0.4 or OL"));
    reading.outcome = Outcome::Value;
    for (const auto& [key, outcome] : outcome_keys) {
        if (lower(word) == key) reading.outcome = outcome;
    }
    if (const std::optional<double> volt = volts_in(word, awaited)) {
        if (std::abs(*volt) > most_volts) refuse_high_voltage(input, *volt);
        reading.quantity = Quantity::Volt;
        reading.value = *volt;
    } else {
        if (volts) require_volts(input, reading, word);
        if (reading.outcome == Outcome::Value)
            reading.value = ohms_in(input, word, value_forms);
        else if (volts)
            reading.quantity = Quantity::Volt;
    }
    while (lower(input.peek()) == "moved" || lower(input.peek()) == "wet") {
        (lower(input.take()) == "moved" ? reading.moved : reading.wet) = true;
    }
    input.require_done("the value, but `moved` and `wet`");
}

}  // namespace halfsplit::job
