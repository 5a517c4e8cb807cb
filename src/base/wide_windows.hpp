// Text as Windows takes it, UTF-16, from UTF-8 and back.
#pragma once

#include <string>
#include <string_view>

namespace halfsplit {

// What is not valid becomes U+FFFD.
std::wstring wide_text(std::string_view text);
std::string utf8_text(std::wstring_view text);

}  // namespace halfsplit
