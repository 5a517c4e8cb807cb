// How far a count of expansions may be expected to go.
#pragma once

#include "plan/model.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace halfsplit::plan {

// About what searching so many elements to the end takes; measured on chains with 64 covers and 20 places: 8
// elements 25 expansions, 16 some 270, 24 some 1,000, 32 some 3,500, 40 some 8,000.
inline double likely_expansions(double elements) {
    return std::exp2(std::min(1.2 + 0.43 * elements, 5 + 0.2 * elements));
}

// Elements of the outline that some suspect has.
inline std::uint32_t count_elements(const Model& model) {
    std::vector<char> seen;
    std::uint32_t count = 0;
    for (const Suspect& suspect : model.suspects) {
        if (suspect.element >= seen.size()) seen.resize(suspect.element + 1, 0);
        count += seen[suspect.element] == 0 ? 1 : 0;
        seen[suspect.element] = 1;
    }
    return count;
}

// To work a state out takes up to the square of the number of tests, and the more there are the further off a
// proof is. So many tests are given all the states, more of them fewer, and from some number on none.
inline constexpr std::size_t most_tests_freely = 500, most_tests_searched = 4000;

inline bool out_of_reach(const Model& model) {
    return model.tests.size() > most_tests_searched;
}

inline std::uint64_t states_for_the_whole(const Model& model, std::uint64_t states) {
    if (model.tests.size() <= most_tests_freely) return states;
    if (out_of_reach(model)) return 0;
    const double share = static_cast<double>(most_tests_freely) / static_cast<double>(model.tests.size());
    return static_cast<std::uint64_t>(static_cast<double>(states) * share * share * share);
}

}  // namespace halfsplit::plan
