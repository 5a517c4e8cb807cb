// What the words of a hop say: those before the thing about the wire, those behind it about the thing.
#pragma once

#include "draft/sheet.hpp"

#include <optional>
#include <string>
#include <vector>

namespace halfsplit::draft {

class Cursor {
  public:
    Cursor(const SheetLine& line, std::size_t at) : line_(line), at_(at) {}
    bool any() const { return at_ < line_.words.size(); }
    bool more(std::size_t ahead = 1) const { return at_ + ahead < line_.words.size(); }
    const Word& word(std::size_t ahead = 0) const { return line_.words[at_ + ahead]; }
    void step(std::size_t count = 1) { at_ += count; }
    const SheetLine& line() const { return line_; }

  private:
    const SheetLine& line_;
    std::size_t at_;
};

// What wires and things have in common.
struct Qualities {
    Json fitted, marks;
    std::optional<double> weight;
    Minutes minutes;
};

struct WireWords {
    Qualities qualities;
    std::optional<double> length;
    bool untwisted = false;
    Stand stand;  // as carried on when the thing begins
    At at, length_at, gauge_at;
    std::array<At, 2> colour_at;
};

struct Cavities {
    Pair pair;  // the second is empty on a single line
    At at;
};

struct ThingWords {
    At at;
    std::optional<Kind> kind;
    std::string id;
    char half = 0;  // as named: X1.b
    std::vector<Cavities> pairs;
    Qualities qualities;
    std::optional<FaceSize> face;
    std::string terminator;
    std::optional<double> ohm, load;
    std::array<std::optional<Stand>, 2> half_stand;  // a@..., b@...
    std::array<Minutes, 2> half_minutes;
    std::string ground, supply;
    std::optional<Word> plug, stands_in_for;
    At face_at, terminator_at, ohm_at;
    bool clip = false;
    bool placed = false;  // an @ of its own
};

// Up to the thing, which is left to be read. What is carried on changes on the way.
WireWords read_wire_words(Cursor& cursor, Sheet& sheet);
// From the thing's name to the end.
ThingWords read_thing_words(Cursor& cursor, Sheet& sheet);

// "X1.b" in its two parts; half 0 where none is named.
std::pair<std::string, char> split_half(const std::string& name);

}  // namespace halfsplit::draft
