// Pages of HTML that stand alone: nothing on them runs, and nothing is fetched.
#pragma once

#include <string>
#include <string_view>

namespace halfsplit::report {

// As it stands between tags and inside quoted attributes.
std::string escaped(std::string_view text);

// The same, with what no reader can show (controls, direction marks, broken UTF-8) as "?".
std::string shown(std::string_view text);

// <tag>text</tag>, the text shown(); `attributes` go in as they are.
std::string element(std::string_view tag, std::string_view text, std::string_view attributes = "");

// A whole document in English. `title` is shown(); `style` and `body` go in as they are.
std::string html_document(std::string_view title, std::string_view style, std::string_view body);

}  // namespace halfsplit::report
