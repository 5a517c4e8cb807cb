#include "halfsplit/base/text.hpp"

#include "support/catch.hpp"

using namespace halfsplit;

TEST_CASE("the nearest name is the one with the fewest changes, case ignored") {
    const std::vector<std::string> names{"length_m", "lines", "terminator_ohm"};
    CHECK(nearest_name("lenght_m", names) == "length_m");  // a swap of neighbours is one change
    CHECK(nearest_name("LINES", names) == "lines");
    CHECK(nearest_name("terminator", names) == "terminator_ohm");
}

TEST_CASE("no name is near when more than a third would have to change") {
    CHECK(nearest_name("colour", {"length_m", "lines"}).empty());
    CHECK(nearest_name("X1", {"X2", "Y1"}) ==
          "X2");  // one change is always allowed, and the first of equals wins
    CHECK(nearest_name("Q9", {"X2", "Y1"}).empty());
    CHECK(nearest_name("", {}).empty());
    CHECK(nearest_name("", {"a"}) == "a");
}

TEST_CASE("an exact name beats a near one that comes earlier") {
    CHECK(nearest_name("m1", {"M2", "M1"}) == "M1");
}

TEST_CASE("width counts characters, not bytes") {
    CHECK(display_width("") == 0);
    CHECK(display_width("t\xC3\xBCr") == 3);
    CHECK(display_width("\xE2\x82\xAC\xF0\x9F\x94\xA7") == 2);
}

TEST_CASE("broken UTF-8 is found at its first byte") {
    CHECK(valid_utf8("t\xC3\xBCr \xE2\x82\xAC \xF0\x9F\x94\xA7"));
    CHECK(find_invalid_utf8("ab\xC3") == 2);            // cut short
    CHECK(find_invalid_utf8("ab\xFFz") == 2);           // no lead byte
    CHECK(find_invalid_utf8("a\xC0\xAF") == 1);         // overlong
    CHECK(find_invalid_utf8("\xE0\x80\xAF") == 0);      // overlong in three
    CHECK(find_invalid_utf8("\xF0\x80\x80\xAF") == 0);  // overlong in four
    CHECK(find_invalid_utf8("\xED\xA0\x80") == 0);      // half of a surrogate pair
    CHECK(find_invalid_utf8("\xF4\x90\x80\x80") == 0);  // beyond the last character
    CHECK(find_invalid_utf8("\xF4\x8F\xBF\xBF") == std::string_view::npos);
}

TEST_CASE("what could upset a terminal is shown as a question mark, and columns stay") {
    CHECK(printable("a\x1B[31mred") == "a?[31mred");
    CHECK(printable("a\tb\r\n") == "a b??");
    CHECK(printable("x\xE2\x80\xAEy") == "x?y");  // right-to-left override
    CHECK(printable("x\xFFy") == "x?y");
    CHECK(printable("\xC2\x9B") == "?");  // the one-character form of ESC [
    CHECK(printable("t\xC3\xBCr") == "t\xC3\xBCr");
}

TEST_CASE("wrapping breaks at spaces and never exceeds the width") {
    CHECK(wrap("take off the kick panel", 10) == "take off\nthe kick\npanel");
    CHECK(wrap("take off the kick panel", 12, 2) == "take off the\n  kick panel");
    CHECK(wrap("one\n\n  two three", 8) == "one\n\n  two\nthree");
    CHECK(wrap("", 10).empty());
    CHECK(wrap("o open  c closed  ? not", 16) == "o open  c closed\n? not");
}

TEST_CASE("a figure is not torn from its unit, where both fit on a line") {
    CHECK(wrap("X1 43 %, X2 8 %, 6 more", 15) == "X1 43 %, X2\n8 %, 6 more");
    CHECK(wrap("about 0.6 ohm", 9) == "about\n0.6 ohm");
    CHECK(wrap("below (3 kohm).", 10, 1) == "below\n (3 kohm).");
    CHECK(wrap("below (3 kohm).", 9, 1) == "below (3\n kohm).");
    CHECK(wrap("line 6 h", 6) == "line\n6 h");
    CHECK(wrap("splice S1 m", 9) == "splice S1\nm");
    CHECK(wrap("cavity 6 more", 9) == "cavity 6\nmore");
}

TEST_CASE("a word longer than the line goes on in the next") {
    CHECK(wrap("abcdefghij", 4) == "abcd\nefgh\nij");
    CHECK(wrap("a bcdefghij k", 4, 1) == "a\n bcd\n efg\n hij\n k");
    CHECK(wrap("\xC3\xBC\xC3\xBC\xC3\xBC", 2) == "\xC3\xBC\xC3\xBC\n\xC3\xBC");
    CHECK(wrap("abc", 0, 5) == "a\nb\nc");
}

TEST_CASE("lists are joined as in a sentence") {
    CHECK(join({"a", "b"}, "/") == "a/b");
    CHECK(join_words({}).empty());
    CHECK(join_words({"a"}) == "a");
    CHECK(join_words({"a", "b"}) == "a and b");
    CHECK(join_words({"a", "b", "c"}) == "a, b and c");
}

TEST_CASE("words are what stands between blanks") {
    CHECK(split_words("  reading X1:4\t0.4\n") == std::vector<std::string>{"reading", "X1:4", "0.4"});
    CHECK(split_words(" ").empty());
    CHECK(lower("X1 \xC3\x9C") == "x1 \xC3\x9C");
}
