#include "draft/names.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "harness/names.hpp"

#include <algorithm>

namespace halfsplit::draft {

namespace {

// docs/reference/harness-format.md, "Limits".
constexpr std::size_t longest_name = 40;  // of an id or a cavity
constexpr std::size_t longest_words = 200;

bool continues_a_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

// What is no name becomes one; each run of characters that do not fit becomes one "-".
std::string fitting(std::string_view text, bool dots) {
    std::string name;
    for (const char c : text) {
        const bool fits = harness::is_name(std::string{'A', c}, dots);
        if (fits && (!name.empty() || c != '.')) {
            name += c;
        } else if (!name.empty() && name.back() != '-') {
            name += '-';
        }
    }
    while (!name.empty() && !harness::is_name(name, dots)) name.erase(0, 1);
    while (!name.empty() && name.back() == '-' && text.back() != '-') name.pop_back();
    return name.substr(0, longest_name);
}

std::string made_unique(const std::string& name, const std::set<std::string>& taken) {
    std::string result = name;
    for (std::size_t number = 2; taken.contains(result); ++number) {
        const std::string tail = fmt::format("-{}", number);
        result = fmt::format("{}{}", std::string_view(name).substr(0, longest_name - tail.size()), tail);
    }
    return result;
}

}  // namespace

std::string cut_to(std::string_view text, std::size_t characters) {
    std::size_t at = 0;
    for (std::size_t count = 0; at < text.size() && count < characters; ++count) {
        ++at;
        while (at < text.size() && continues_a_character(text[at])) ++at;
    }
    return std::string(text.substr(0, at));
}

std::string fitting_words(std::string_view words) {
    return cut_to(words, longest_words);
}

std::string NameMaker::id(std::string_view wanted, std::string_view otherwise) {
    std::string name = fitting(wanted, false);
    if (name.empty()) name = std::string(otherwise);
    if (harness::is_reserved(name)) name += "-1";
    name = made_unique(name, ids_);
    ids_.insert(name);
    return name;
}

std::string NameMaker::cavity(std::size_t part, const std::string& cavity) {
    const auto [entry, fresh] = cavities_.try_emplace({part, cavity});
    if (!fresh) return entry->second;
    std::string name = fitting(cavity, true);
    if (name.empty()) name += '1';
    std::set<std::string>& taken = taken_[part];
    entry->second = made_unique(name, taken);
    taken.insert(entry->second);
    return entry->second;
}

}  // namespace halfsplit::draft
