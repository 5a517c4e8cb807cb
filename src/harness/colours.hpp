// Colour codes of IEC 60757 and what people write instead.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::harness {

// The code in capitals (the standard allows small letters too); empty when it is not one.
std::string colour_code(std::string_view text);

// The code that was most likely meant by something that is not one; empty when there is no telling.
std::string likely_colour_code(std::string_view text);

// The code, where what stands there can mean no other colour; otherwise empty.
std::string certain_colour_code(std::string_view text);

// All codes in the order of the standard's table.
std::vector<std::string> colour_codes();

}  // namespace halfsplit::harness
