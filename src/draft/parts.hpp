// The things of a sheet as parts of the harness file.
#pragma once

#include "draft/things.hpp"

namespace halfsplit::draft {

// As guess_kind, and what was guessed is noted.
Kind noted_kind(const ThingWords& words, Sheet& sheet);
std::string name_of(Kind kind);  // "bridge plug"

// Whether there are as many pairs of cavities as the kind has, and no words that fit another kind only;
// findings otherwise.
bool pairs_fit(const ThingWords& words, Kind kind, Sheet& sheet);
void check_words(const ThingWords& words, Kind kind, Sheet& sheet);

Json pins(const Pair& pair, bool single);
Thing make_thing(const ThingWords& words, Kind kind, Sheet& sheet);
// A module's connection to this bus; a port of the socket.
void add_bus(const ThingWords& words, const Thing& thing, Sheet& sheet);
void add_port(const ThingWords& words, const Thing& thing, Sheet& sheet);

}  // namespace halfsplit::draft
