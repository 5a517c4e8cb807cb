#include "harness/colours.hpp"

#include "halfsplit/base/text.hpp"

#include <algorithm>
#include <array>
#include <cctype>

namespace halfsplit::harness {

namespace {

struct Code {
    std::string_view code, word;
};

// IEC 60757:1983, table (as in GOST 28763-90), in its order.
constexpr std::array<Code, 15> codes{{{"BK", "black"},
                                      {"BN", "brown"},
                                      {"RD", "red"},
                                      {"OG", "orange"},
                                      {"YE", "yellow"},
                                      {"GN", "green"},
                                      {"BU", "blue"},
                                      {"VT", "violet"},
                                      {"GY", "grey"},
                                      {"WH", "white"},
                                      {"PK", "pink"},
                                      {"GD", "gold"},
                                      {"TQ", "turquoise"},
                                      {"SR", "silver"},
                                      {"GNYE", "green-and-yellow"}}};

// What drawings say instead: German codes (DIN 47002), and the trade's abbreviations in English (from
// memory).
constexpr std::array<Code, 42> habits{
    {{"SW", "BK"},  {"BR", "BN"},  {"RT", "RD"},   {"OR", "OG"},     {"GE", "YE"},  {"BL", "BU"},
     {"VI", "VT"},  {"GR", "GY"},  {"WS", "WH"},   {"RS", "PK"},     {"TK", "TQ"},  {"BLK", "BK"},
     {"BRN", "BN"}, {"BRO", "BN"}, {"RED", "RD"},  {"ORN", "OG"},    {"ORG", "OG"}, {"YEL", "YE"},
     {"GRN", "GN"}, {"BLU", "BU"}, {"VIO", "VT"},  {"PPL", "VT"},    {"PUR", "VT"}, {"GRY", "GY"},
     {"GRA", "GY"}, {"WHT", "WH"}, {"PNK", "PK"},  {"GLD", "GD"},    {"TRQ", "TQ"}, {"TUR", "TQ"},
     {"SIL", "SR"}, {"SLV", "SR"}, {"GRAY", "GY"}, {"B", "BK"},      {"R", "RD"},   {"Y", "YE"},
     {"G", "GN"},   {"W", "WH"},   {"V", "VT"},    {"PURPLE", "VT"}, {"O", "OG"},   {"YEGN", "GNYE"}}};

std::string upper(std::string_view text) {
    std::string result(text);
    for (char& c : result) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return result;
}

std::string in_one_word(std::string_view code) {
    const auto* found =
        std::find_if(codes.begin(), codes.end(), [&](const Code& entry) { return entry.code == code; });
    return std::string(found == codes.end() ? code : found->word);
}

// What a habit or a whole word in capitals stands for; empty for neither.
std::string habitual_code(const std::string& wanted) {
    for (const Code& habit : habits) {
        if (habit.code == wanted) return std::string(habit.word);
    }
    for (const Code& entry : codes) {
        if (upper(entry.word) == wanted) return std::string(entry.code);
    }
    return {};
}

}  // namespace

std::string colour_code(std::string_view text) {
    const std::string wanted = upper(text);
    const auto matches = [&](const Code& entry) { return entry.code == wanted; };
    return std::any_of(codes.begin(), codes.end(), matches) ? wanted : std::string();
}

std::string likely_colour_code(std::string_view text) {
    std::string known = habitual_code(upper(text));
    if (!known.empty()) return known;
    std::vector<std::string> names = colour_codes();
    const std::size_t count = names.size();
    for (const Code& entry : codes) names.emplace_back(entry.word);
    const std::string near = nearest_name(text, names);
    const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), near) - names.begin());
    return near.empty() ? near : names[at % count];
}

std::string certain_colour_code(std::string_view text) {
    // Blue or black, grey or green: one language says this, another that.
    constexpr std::array<std::string_view, 2> unclear{"BL", "GR"};
    const std::string wanted = upper(text);
    if (wanted.size() < 2 || std::find(unclear.begin(), unclear.end(), wanted) != unclear.end()) return {};
    return habitual_code(wanted);
}

std::vector<std::string> colour_codes() {
    std::vector<std::string> all;
    for (const Code& entry : codes) all.emplace_back(entry.code);
    return all;
}

std::string in_words(const Colour& colour) {
    if (colour.base.empty()) return "colour not stated";
    std::string words = in_one_word(colour.base);
    if (!colour.stripe.empty()) {
        const std::string stripe = in_one_word(colour.stripe);
        words += stripe.front() == 'o' ? " with an " : " with a ";
        words += stripe + " stripe";
    }
    return words;
}

}  // namespace halfsplit::harness
