// What is wrong with text that is not JSON, in the words of the person who typed it.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <cstddef>
#include <string>
#include <string_view>

namespace halfsplit {

struct ParserMistake {
    std::size_t position = 0;  // how many bytes the parser had read
    bool too_large = false;    // a number beyond the range of a double
    bool after_end = false;    // the document was complete before it
};

// The finding json-syntax for it, with its location; no quoted line yet. Linear in the text.
Finding explain_mistake(std::string_view text, const ParserMistake& mistake, const std::string& file_name);

Location location_of_offset(std::string_view text, std::size_t offset, const std::string& file_name);

}  // namespace halfsplit
