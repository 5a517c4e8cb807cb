// Words of which one has to stand next in an entry, and what each means.
#pragma once

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "input.hpp"

#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace halfsplit::job {

template <typename Value, std::size_t Size>
using Choices = std::array<std::pair<std::string_view, Value>, Size>;

// The value that goes with the next word.
template <typename Value, std::size_t Size>
Value take_choice(Input& input, const Choices<Value, Size>& choices, const std::string& next_step) {
    std::vector<std::string> words;
    for (const auto& choice : choices) words.emplace_back(choice.first);
    const std::string expected = "one of " + join_words(words);
    const std::string word = input.take(expected, next_step);
    for (const auto& [name, value] : choices) {
        if (lower(word) == name) return value;
    }
    input.refuse_last({"event-word-unknown", fmt::format("'{}' does not fit here", word), expected,
                       nearest_name(word, words), next_step});
}

}  // namespace halfsplit::job
