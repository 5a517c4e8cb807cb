// Wire colours as lists write them, to base and stripe in codes of IEC 60757.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <cstdint>
#include <string>
#include <string_view>

namespace halfsplit::draft {

enum class ColourCodes : std::uint8_t {
    International,  // IEC 60757, English words and abbreviations
    German,         // two letters of DIN 47002: sw br rt or ge gn bl vi gr ws rs tk; IEC codes besides
};

struct ReadColour {
    harness::Colour colour;
    std::string why;      // why it was not understood, or empty
    bool joined = false;  // two codes written as one word ("BKYE")
};

// "BK", "BK/YE", "BKYE", "black with yellow stripe". Codes that mean different colours in different lists
// (GR, BL, B, G) are not guessed.
ReadColour read_colour_words(std::string_view text, ColourCodes codes);

}  // namespace halfsplit::draft
