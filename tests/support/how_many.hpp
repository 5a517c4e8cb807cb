// Samples: how many times something is tried in every run, and as often as somebody asks for.
#pragma once

#include <cstdint>
#include <cstdlib>
#include <string>

namespace halfsplit::test {

// What the environment's variable says, else `usual`. Throws std::invalid_argument where it is no number.
inline std::uint64_t how_many(const char* variable, std::uint64_t usual) {
    const char* asked = std::getenv(variable);
    return asked == nullptr ? usual : std::stoull(asked);
}

}  // namespace halfsplit::test
