#include "draft/colour_words.hpp"

#include "halfsplit/base/text.hpp"

#include "harness/colours.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace halfsplit::draft {

namespace {

using Meaning = std::pair<std::string_view, std::string_view>;

// DIN 47002, from memory; where a code is also one of IEC 60757 it means the same ("gn").
constexpr std::array<Meaning, 13> german{{{"sw", "BK"},
                                          {"br", "BN"},
                                          {"rt", "RD"},
                                          {"or", "OG"},
                                          {"ge", "YE"},
                                          {"gn", "GN"},
                                          {"bl", "BU"},
                                          {"vi", "VT"},
                                          {"li", "VT"},
                                          {"gr", "GY"},
                                          {"ws", "WH"},
                                          {"rs", "PK"},
                                          {"tk", "TQ"}}};

// What joins two colours in words and says nothing of them.
constexpr std::array<std::string_view, 7> fillers{"with", "and", "a", "an", "stripe", "striped", "tracer"};

std::vector<std::string> words_of(std::string_view text) {
    std::string plain;
    for (const char c : lower(text)) plain += c >= 'a' && c <= 'z' ? c : ' ';
    std::vector<std::string> words = split_words(plain);
    std::erase_if(words, [](const std::string& word) {
        return std::find(fillers.begin(), fillers.end(), word) != fillers.end();
    });
    return words;
}

std::string code_of(const std::string& word, ColourCodes codes) {
    if (codes == ColourCodes::German) {
        const auto* found = std::find_if(german.begin(), german.end(),
                                         [&](const Meaning& meaning) { return meaning.first == word; });
        if (found != german.end()) return std::string(found->second);
    }
    const std::string code = harness::colour_code(word);
    return code.empty() ? harness::certain_colour_code(word) : code;
}

// "bkye" as two codes.
harness::Colour split_in_two(const std::string& word, ColourCodes codes) {
    if (word.size() != 4) return {};
    harness::Colour colour{code_of(word.substr(0, 2), codes), code_of(word.substr(2), codes)};
    return colour.base.empty() || colour.stripe.empty() ? harness::Colour{} : colour;
}

std::string why_unread(const std::string& word) {
    const std::string near = harness::likely_colour_code(word);
    return "no code of IEC 60757" + (near.empty() ? std::string() : ", and may mean " + near + " or not");
}

}  // namespace

ReadColour read_colour_words(std::string_view text, ColourCodes codes) {
    const std::vector<std::string> words = words_of(text);
    if (words.empty()) return {};
    if (words.size() > 2) return {{}, "more colours than a base and a stripe", false};
    ReadColour result;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string code = code_of(words[i], codes);
        if (code.empty() && words.size() == 1) {
            result.colour = split_in_two(words[i], codes);
            result.joined = !result.colour.base.empty();
            if (result.joined) return result;
        }
        if (code.empty()) return {{}, why_unread(words[i]), false};
        (i == 0 ? result.colour.base : result.colour.stripe) = code;
    }
    return result;
}

}  // namespace halfsplit::draft
