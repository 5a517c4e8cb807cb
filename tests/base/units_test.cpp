#include "halfsplit/base/units.hpp"

#include "support/catch.hpp"

#include <cmath>
#include <limits>
#include <random>

using namespace halfsplit;

namespace {
constexpr double infinity = std::numeric_limits<double>::infinity();
}

TEST_CASE("ohms are written with three digits and a prefix") {
    CHECK(format_ohm(0) == "0 ohm");
    CHECK(format_ohm(0.4) == "0.4 ohm");
    CHECK(format_ohm(60.125) == "60.1 ohm");
    CHECK(format_ohm(120) == "120 ohm");
    CHECK(format_ohm(3100) == "3.1 kohm");
    CHECK(format_ohm(2e6) == "2 Mohm");
    CHECK(format_ohm(1e9) == "1 Gohm");
    CHECK(format_ohm(infinity) == "OL");
}

TEST_CASE("rounding never shows a thousand of a unit") {
    CHECK(format_ohm(999.4) == "999 ohm");
    CHECK(format_ohm(999.7) == "1 kohm");
    CHECK(format_ohm(999'700) == "1 Mohm");
    CHECK(format_ohm(99.96) == "100 ohm");
    CHECK(format_ohm(0.9996) == "1 ohm");
}

TEST_CASE("nothing finer than a milliohm is shown") {
    CHECK(format_ohm(0.0123) == "0.012 ohm");
    CHECK(format_ohm(0.0004) == "0 ohm");
    CHECK(format_ohm(1e-12) == "0 ohm");
}

TEST_CASE("volts keep their sign") {
    CHECK(format_volt(2.5) == "2.5 V");
    CHECK(format_volt(12.34) == "12.3 V");
    CHECK(format_volt(-0.1) == "-0.1 V");
    CHECK(format_volt(-0.0001) == "0 V");
    CHECK(format_volt(0) == "0 V");
}

TEST_CASE("minutes become hours from sixty on") {
    CHECK(format_minutes(0) == "0 min");
    CHECK(format_minutes(0.49) == "under 1 min");
    CHECK(format_minutes(0.5) == "1 min");
    CHECK(format_minutes(7.2) == "7 min");
    CHECK(format_minutes(59.4) == "59 min");
    CHECK(format_minutes(59.6) == "1 h");
    CHECK(format_minutes(80) == "1 h 20 min");
    CHECK(format_minutes(600) == "10 h");
    CHECK(format_minutes(infinity) == "without end");
}

TEST_CASE("a chance says never and always only when it is exact") {
    CHECK(format_chance(0) == "0 %");
    CHECK(format_chance(0.0005) == "under 0.1 %");
    CHECK(format_chance(0.004) == "0.4 %");
    CHECK(format_chance(0.0096) == "1 %");
    CHECK(format_chance(0.03) == "3 %");
    CHECK(format_chance(0.99) == "99 %");
    CHECK(format_chance(0.994) == "99.4 %");
    CHECK(format_chance(0.9999) == "over 99.9 %");
    CHECK(format_chance(1) == "100 %");
}

TEST_CASE("ohms are read as people write them") {
    CHECK(parse_ohm("0.4") == 0.4);
    CHECK(parse_ohm("120") == 120.0);
    CHECK(parse_ohm(".5") == 0.5);
    CHECK(parse_ohm("3.1k") == 3100.0);
    CHECK(parse_ohm("3.1K") == 3100.0);
    CHECK(parse_ohm("2M") == 2e6);
    CHECK(parse_ohm("120 ohm") == 120.0);
    CHECK(parse_ohm("120ohms") == 120.0);
    CHECK(parse_ohm("3.1 kohm") == 3100.0);
    CHECK(parse_ohm("120 \u03a9") == 120.0);
    CHECK(parse_ohm("OL") == infinity);
    CHECK(parse_ohm("ol") == infinity);
}

TEST_CASE("what is not ohms is not read as ohms") {
    for (const char* text :
         {"",    " ",     "ohm", "k",     "-1",  "-0",   "nan",   "inf", "infinity", "1e3", "0x10",
          "1,5", "1.2.3", "2m",  "3.1kk", "OLx", "2.5V", "12 34", "+5",  "--3",      "."}) {
        INFO(text);
        CHECK_FALSE(parse_ohm(text));
    }
    CHECK_FALSE(parse_ohm(std::string(400, '9') + "M"));
}

TEST_CASE("volts need their unit") {
    CHECK(parse_volt("2.5V") == 2.5);
    CHECK(parse_volt("2.5 v") == 2.5);
    CHECK(parse_volt("-0.1V") == -0.1);
    CHECK_FALSE(parse_volt("2.5"));
    CHECK_FALSE(parse_volt("V"));
    CHECK_FALSE(parse_volt("OLV"));
}

TEST_CASE("what is written of ohms is read back to three digits") {
    std::mt19937_64 random(7);
    std::uniform_real_distribution<double> exponent(-1, 8.9);
    for (int i = 0; i < 2000; ++i) {
        const double ohm = std::pow(10.0, exponent(random));
        const std::string text = format_ohm(ohm);
        INFO(ohm << " as " << text);
        const auto back = parse_ohm(text);
        REQUIRE(back);
        CHECK(std::abs(*back - ohm) <= 0.0051 * ohm);
    }
}
