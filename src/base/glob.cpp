#include "base/glob.hpp"

#include <algorithm>

namespace halfsplit {

namespace {

constexpr std::size_t nowhere = std::string_view::npos;

bool inside_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

std::size_t after_character(std::string_view name, std::size_t at) {
    ++at;
    while (at < name.size() && inside_character(name[at])) ++at;
    return at;
}

// Where the set that begins at `open` ends: the offset of its "]", or nowhere.
std::size_t end_of_set(std::string_view wanted, std::size_t open) {
    std::size_t from = open + 1;
    if (from < wanted.size() && wanted[from] == '!') ++from;
    return wanted.find(']', from + 1);
}

bool in_set(std::string_view set, char c) {
    const bool others = !set.empty() && set.front() == '!';
    if (others) set.remove_prefix(1);
    bool found = false;
    for (std::size_t i = 0; i < set.size(); ++i) {
        const bool range = i + 2 < set.size() && set[i + 1] == '-';
        found = found || (range ? set[i] <= c && c <= set[i + 2] : set[i] == c);
        if (range) i += 2;
    }
    return found != others;
}

// One sign of the pattern against one character of the name: how far each goes on.
struct Step {
    bool fits = false;
    std::size_t pattern = 0, name = 0;
};

Step one_step(std::string_view wanted, std::size_t at, std::string_view name, std::size_t on) {
    if (wanted[at] == '?') return {true, at + 1, after_character(name, on)};
    if (wanted[at] == '[') {
        const std::size_t end = end_of_set(wanted, at);
        if (end != nowhere)
            return {in_set(wanted.substr(at + 1, end - at - 1), name[on]), end + 1,
                    after_character(name, on)};
    }
    return {wanted[at] == name[on], at + 1, on + 1};
}

}  // namespace

bool is_pattern(std::string_view text) {
    return text.find_first_of("*?[") != nowhere;
}

bool matches(std::string_view wanted, std::string_view name) {
    if (!name.empty() && name.front() == '.' && (wanted.empty() || wanted.front() != '.')) return false;
    std::size_t at = 0, on = 0;
    std::size_t star = nowhere, star_on = 0;  // the last "*", and what it has taken up to
    while (on < name.size()) {
        if (at < wanted.size() && wanted[at] == '*') {
            star = at++;
            star_on = on;
            continue;
        }
        const Step step = at < wanted.size() ? one_step(wanted, at, name, on) : Step{};
        if (step.fits) {
            at = step.pattern;
            on = step.name;
        } else if (star != nowhere) {
            at = star + 1;
            on = ++star_on;
        } else {
            return false;
        }
    }
    return wanted.find_first_not_of('*', std::min(at, wanted.size())) == nowhere;
}

}  // namespace halfsplit
