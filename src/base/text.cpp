#include "halfsplit/base/text.hpp"

#include <algorithm>
#include <cctype>

namespace halfsplit {

namespace {

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

// Levenshtein distance with a swap of neighbours as one step, or `limit` + 1 as soon as it must be above
// `limit`.
std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit) {
    const std::size_t gap = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
    if (gap > limit) return limit + 1;
    std::vector<std::size_t> before(b.size() + 1);
    std::vector<std::size_t> last(b.size() + 1);
    std::vector<std::size_t> now(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        now[0] = i;
        std::size_t least = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            now[j] = std::min({change, last[j] + 1, now[j - 1] + 1});
            const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped) now[j] = std::min(now[j], before[j - 2] + 1);
            least = std::min(least, now[j]);
        }
        if (least > limit) return limit + 1;
        std::swap(before, last);
        std::swap(last, now);
    }
    return last[b.size()];
}

}  // namespace

std::string nearest_name(std::string_view name, const std::vector<std::string>& candidates) {
    const std::string wanted = lower(name);
    const std::string* best = nullptr;
    std::size_t least = 0;
    for (const std::string& candidate : candidates) {
        const std::size_t longer = std::max(name.size(), candidate.size());
        std::size_t limit = std::max<std::size_t>(1, longer / 3);
        if (best != nullptr) {
            if (least == 0) break;
            limit = std::min(limit, least - 1);
        }
        const std::size_t distance = edit_distance(wanted, lower(candidate), limit);
        if (distance > limit) continue;
        best = &candidate;
        least = distance;
    }
    return best == nullptr ? std::string() : *best;
}

std::string certain_name(std::string_view name, const std::vector<std::string>& candidates) {
    const auto digits = [](std::string_view text) {
        std::string all;
        for (const char c : text) {
            if (c >= '0' && c <= '9') all += c;
        }
        return all;
    };
    constexpr std::size_t shortest = 3;
    const std::string wanted = lower(name);
    const std::string* found = nullptr;
    for (const std::string& candidate : candidates) {
        if (edit_distance(wanted, lower(candidate), 1) > 1) continue;
        if (found != nullptr && *found != candidate) return {};
        found = &candidate;
    }
    if (found == nullptr || std::min(name.size(), found->size()) < shortest) return {};
    return digits(name) == digits(*found) ? *found : std::string();
}

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
    std::string all;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) all += separator;
        all += parts[i];
    }
    return all;
}

std::string join_words(const std::vector<std::string>& parts) {
    std::string all;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) all += i + 1 == parts.size() ? " and " : ", ";
        all += parts[i];
    }
    return all;
}

std::vector<std::string> split_words(std::string_view text) {
    std::vector<std::string> words;
    std::size_t at = 0;
    while (at < text.size()) {
        while (at < text.size() && is_blank(text[at])) ++at;
        const std::size_t start = at;
        while (at < text.size() && !is_blank(text[at])) ++at;
        if (at > start) words.emplace_back(text.substr(start, at - start));
    }
    return words;
}

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return result;
}

std::string counted(std::size_t number, std::string_view one) {
    return std::to_string(number) + " " + std::string(one) + (number == 1 ? "" : "s");
}

}  // namespace halfsplit
