#include "support/markup.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace halfsplit::test {

namespace {

std::map<std::string, std::string> attributes_of(const std::string& inside) {
    std::map<std::string, std::string> result;
    std::size_t at = inside.find(' ');
    while (at != std::string::npos && at + 1 < inside.size()) {
        const std::size_t equals = inside.find("=\"", at);
        if (equals == std::string::npos) break;
        const std::size_t end = inside.find('"', equals + 2);
        if (end == std::string::npos) throw std::runtime_error("an attribute does not end: " + inside);
        result[inside.substr(at + 1, equals - at - 1)] = inside.substr(equals + 2, end - equals - 2);
        at = inside.find(' ', end);
    }
    return result;
}

double luminance(const std::string& colour) {
    if (colour.size() != 7 || colour[0] != '#') throw std::runtime_error("not a colour: " + colour);
    const auto channel = [&](std::size_t at) {
        const double value = std::stoi(colour.substr(at, 2), nullptr, 16) / 255.0;
        return value <= 0.03928 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

}  // namespace

std::vector<Tag> tags_of(const std::string& html) {
    std::vector<Tag> tags;
    std::size_t at = html.find('<');
    while (at != std::string::npos) {
        const std::size_t end = html.find('>', at);
        if (end == std::string::npos) throw std::runtime_error("a tag does not end");
        std::string inside = html.substr(at + 1, end - at - 1);
        if (!inside.empty() && inside.back() == '/') inside.pop_back();
        const std::size_t next = html.find('<', end);
        tags.push_back({inside.substr(0, inside.find(' ')), attributes_of(inside),
                        html.substr(end + 1, next == std::string::npos ? next : next - end - 1)});
        at = next;
    }
    return tags;
}

double contrast(const std::string& one, const std::string& other) {
    const double a = luminance(one), b = luminance(other);
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

}  // namespace halfsplit::test
