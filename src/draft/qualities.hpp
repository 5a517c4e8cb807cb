// Words that wires and things share: places, minutes, marks, options.
#pragma once

#include "draft/hop_words.hpp"

namespace halfsplit::draft {

// For "did you mean".
const std::vector<std::string>& known_qualities();

// The word behind "@", "a@", "at": in the same word or the next. Empty where the word is nothing of the kind.
struct Spotted {
    char half = 0;
    Word names;
};
std::optional<Spotted> spot_at(Cursor& cursor);

// "driver/kick" behind the @; "/kick" keeps the place. Empty, with a finding, where a name is not known.
std::optional<Stand> read_stand(const Word& word, const Stand& before, Sheet& sheet);

bool minutes_in_range(const Minutes& minutes, const Word& word, Sheet& sheet);
void say_incomplete(const Word& word, const char* example, Sheet& sheet);

// Says whether the word under the cursor was one, and goes on behind it.
bool read_quality(Cursor& cursor, Qualities& qualities, Sheet& sheet);

}  // namespace halfsplit::draft
