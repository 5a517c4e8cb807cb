// Reading JSON text from strangers: bounded depth, duplicate names refused, and where in the text a value
// stands.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

// Deepest nesting accepted; a harness needs seven.
inline constexpr std::size_t deepest_nesting = 64;
// Most values accepted in one text; a harness of 100,000 parts has about 3,000,000.
inline constexpr std::size_t most_values = 6'000'000;

// Parses `text`. Throws InputError (ids json-encoding, json-syntax, json-depth, json-size,
// json-duplicate-name) with the place. Linear in the text; never recurses.
nlohmann::json parse_json(std::string_view text, const std::string& file_name);

// Where the value at a JSON pointer stands in a text that parse_json accepted. Linear in the text; used on
// the error path only. An unknown pointer gives the place of its nearest known parent.
Location locate(std::string_view text, std::string_view pointer, const std::string& file_name);

// A value by its JSON pointer, or the name of the member that it is the value of.
struct Spot {
    std::string pointer;
    bool name = false;
};

// The same for many, in one pass.
std::vector<Location> locate(std::string_view text, const std::vector<Spot>& spots,
                             const std::string& file_name);

// The line of `text` with that number, without its end, cut to what is worth showing.
std::string line_of(std::string_view text, std::size_t line);

// Sets source_line and caret of each finding that has a line, cutting long lines around the caret. One pass
// of the text.
void quote_lines(std::vector<Finding>& findings, std::string_view text);

// One name of a JSON pointer, with "~" and "/" escaped (RFC 6901).
std::string pointer_token(std::string_view name);

}  // namespace halfsplit
