// A page of HTML taken apart as far as tests need it: its tags in order, with their attributes.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace halfsplit::test {

struct Tag {
    std::string name;  // "/p" where it ends one
    std::map<std::string, std::string> attributes;
    std::string text;  // that follows it, up to the next tag
};

// Throws std::runtime_error where a tag does not end.
std::vector<Tag> tags_of(const std::string& html);

// Of two colours such as "#4d4d4d": (L1 + 0.05) / (L2 + 0.05) with the relative luminance of WCAG 2.1
// (definitions "contrast ratio" and "relative luminance", W3C Recommendation 2018).
double contrast(const std::string& one, const std::string& other);

}  // namespace halfsplit::test
