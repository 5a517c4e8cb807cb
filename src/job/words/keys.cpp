#include "keys.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace halfsplit::job {

namespace {

std::string key_of(const std::string& word) {
    const std::size_t equals = word.find('=');
    return equals == std::string::npos ? "" : lower(word.substr(0, equals));
}

std::string with_equals(const std::vector<std::string>& keys) {
    std::vector<std::string> all;
    all.reserve(keys.size());
    for (const std::string& key : keys) all.push_back(key + "=");
    return "one of " + join_words(all);
}

}  // namespace

Keys::Keys(Input& input, std::vector<std::string> known, std::string example)
    : input_(input), known_(std::move(known)), example_(std::move(example)) {
    input_.take();
    if (input_.done()) input_.take(with_equals(known_), example_);
}

bool Keys::at_known_key() const {
    return std::find(known_.begin(), known_.end(), key_of(input_.peek())) != known_.end();
}

bool Keys::next() {
    if (input_.done()) return false;
    const bool known = at_known_key();
    const std::string word = input_.take();
    if (!known) {
        const std::string key = key_of(word).empty() ? lower(word) : key_of(word);
        input_.refuse_last({"event-word-unknown", fmt::format("'{}' is no known key", word),
                            with_equals(known_), nearest_name(key, known_), example_});
    }
    name_ = key_of(word);
    value_ = word.substr(word.find('=') + 1);
    // A word with an equals sign is a key, known or not: a slip in a key must not vanish into the value
    // before it.
    while (!input_.done() && key_of(input_.peek()).empty()) {
        if (!value_.empty()) value_ += ' ';
        value_ += input_.take();
    }
    return true;
}

std::vector<std::string> Keys::list() const {
    std::vector<std::string> items;
    std::size_t from = 0;
    while (from <= value_.size()) {
        const std::size_t comma = std::min(value_.find(',', from), value_.size());
        const std::string item = join(split_words(value_.substr(from, comma - from)), " ");
        if (!item.empty()) items.push_back(item);
        from = comma + 1;
    }
    return items;
}

bool Keys::either(const std::string& yes, const std::string& no) const {
    if (lower(value_) == yes) return true;
    if (lower(value_) == no) return false;
    input_.refuse_last({"event-value", fmt::format("'{}' does not say how it stands with {}", value_, name_),
                        fmt::format("{}={} or {}={}", name_, yes, name_, no), nearest_name(value_, {yes, no}),
                        example_});
}

}  // namespace halfsplit::job
