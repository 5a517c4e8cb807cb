// Where the system is POSIX: libmd.
#include "halfsplit/base/digest.hpp"

#include <array>
#include <sha2.h>

namespace halfsplit {

std::string sha256(std::string_view text) {
    std::array<char, SHA256_DIGEST_STRING_LENGTH> digits{};
    SHA256Data(reinterpret_cast<const std::uint8_t*>(text.data()), text.size(), digits.data());
    return digits.data();
}

}  // namespace halfsplit
