// Changes of a JSON text that leave it JSON, for targets that bytes changed at random would seldom get into.
#pragma once

#include <cstddef>
#include <cstdint>

namespace halfsplit::fuzz {

// Changes the text in place, at most to `most` bytes, and returns its new size: an entry or member goes, is
// doubled, takes the place of another, or becomes some odd value. Where the text is no JSON, or once in four
// times, bytes are changed as the fuzzer would. Deterministic in `seed`.
std::size_t mutate_json(std::uint8_t* data, std::size_t size, std::size_t most, unsigned seed);

}  // namespace halfsplit::fuzz
