// Reading JSON text from strangers: bounded depth, duplicate names refused, and where in the text a value stands.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>
#include <string_view>

namespace halfsplit {

// Deepest nesting accepted; a harness needs seven.
inline constexpr std::size_t deepest_nesting = 64;

// Parses `text`. Throws InputError (ids json-syntax, json-depth, json-encoding, json-duplicate-name) with the place.
nlohmann::json parse_json(std::string_view text, const std::string& file_name);

// Where the value at a JSON pointer stands in a text that parse_json accepted. Linear in the text; used on the
// error path only. An unknown pointer gives the place of its nearest known parent.
Location locate(std::string_view text, std::string_view pointer, const std::string& file_name);

// The line of `text` with that number, without its end, cut to what is worth showing.
std::string line_of(std::string_view text, std::size_t line);

}  // namespace halfsplit
