// Fingerprints of text: for naming a harness in a job and for telling a damaged record.
#pragma once

#include <string>
#include <string_view>

namespace halfsplit {

// SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
std::string sha256(std::string_view text);

}  // namespace halfsplit
