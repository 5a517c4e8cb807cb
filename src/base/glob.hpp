// File names by pattern, as shells have them (POSIX, Shell Command Language, "Pattern Matching Notation"):
// for patterns that no shell has expanded.
#pragma once

#include <string_view>

namespace halfsplit {

// Whether the text has a sign that stands for others: "*", "?" or "[".
bool is_pattern(std::string_view text);

// "*" stands for any run of bytes, "?" for one character, "[a-z]" and "[!a-z]" for one of a set or of all
// others; a "[" without its "]" for itself. A name that begins with "." is met only by a pattern that does.
// Never recurses; at most pattern times name steps.
bool matches(std::string_view wanted, std::string_view name);

}  // namespace halfsplit
