// The things of a sheet as parts of the harness file: made at their first mention, added to at later ones.
#pragma once

#include "draft/hop_words.hpp"

namespace halfsplit::draft {

// How the pair meets a thing: where it comes in, and where it goes on, if it does.
struct Meeting {
    End in;
    std::optional<End> out;
    bool splice = false;
    bool sound = true;  // false: a finding says why there is none
};

// By the word before the name; otherwise by what is said of it, then by its letter: X1 a connector, T1 a
// terminator, DS the socket. `note`: what was guessed, empty where it is certain.
struct KindGuess {
    Kind kind = Kind::Module;
    const char* note = "";
};
KindGuess guess_kind(const ThingWords& words);

// Makes the thing at its first mention, or checks what is said of a known one. `as_start`: the pair begins
// here instead of arriving.
Meeting meet(const ThingWords& words, const SheetLine& line, bool as_start, Sheet& sheet);

// "4" and "5" of X3.a as terminals.
std::string terminal_of(const End& end, std::size_t line);
std::string point_of(const End& end, bool single);

// Sets the name, and at a connector the halves' names, from what stands behind the comma.
void give_names(const Word& text, const Thing& thing, Sheet& sheet);

// Marks, option, weight and access, as members of a part.
void put_qualities(Json& part, const Qualities& qualities);

}  // namespace halfsplit::draft
