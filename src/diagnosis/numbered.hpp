// Explanations with a number each, the same from one belief to the next.
#pragma once

#include "halfsplit/diagnosis/explanation.hpp"

#include <cstddef>
#include <cstdint>

namespace halfsplit::diagnosis {

struct Numbered {
    std::uint64_t number = 0;
    Explanation explanation;
};

inline constexpr unsigned bits_of_fault = 26;

// `one` and `other` are positions of the faults in the catalogue of the variant, from 1; 0: no fault. Below a
// thousand variants and sixty million faults.
inline Numbered numbered(const Explanation& explanation, std::uint64_t one, std::uint64_t other) {
    std::uint64_t number = explanation.variant;
    number = number << bits_of_fault | one;
    number = number << bits_of_fault | other;
    number = number << 1U | (explanation.repair_failed ? 1U : 0U);
    number = number << 1U | (explanation.reseat_cured ? 1U : 0U);
    return {number, explanation};
}

// Position in the catalogue, from 0. Not for "nothing wrong".
inline std::size_t first_fault(const Numbered& explanation) {
    return ((explanation.number >> (bits_of_fault + 2)) & ((std::uint64_t{1} << bits_of_fault) - 1)) - 1;
}

}  // namespace halfsplit::diagnosis
