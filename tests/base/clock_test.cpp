#include "halfsplit/base/clock.hpp"

#include "support/catch.hpp"

#include <limits>
#include <random>

using namespace halfsplit;

// Source: POSIX.1-2017, Base Definitions 4.16, formula for seconds since the Epoch; worked by hand.
TEST_CASE("times are written in UTC to the second") {
    CHECK(format_time(0) == "1970-01-01T00:00:00Z");
    CHECK(format_time(951'782'400) == "2000-02-29T00:00:00Z");
    CHECK(format_time(1'772'351'100) == "2026-03-01T07:45:00Z");
    CHECK(format_time(-1) == "1969-12-31T23:59:59Z");
}

TEST_CASE("only that one form is read, and only times that exist") {
    CHECK(parse_time("2026-03-01T07:45:00Z") == 1'772'351'100);
    for (const char* text :
         {"", "2026-03-01", "2026-03-01T07:45:00", "2026-03-01 07:45:00Z", "2026-03-01T07:45:00z",
          "2026-3-1T07:45:00Z", "2026-02-29T00:00:00Z", "2026-13-01T00:00:00Z", "2026-00-01T00:00:00Z",
          "2026-01-00T00:00:00Z", "2026-01-01T24:00:00Z", "2026-01-01T00:60:00Z", "2026-01-01T00:00:60Z",
          "2026-03-01T07:45:00Z ", "-026-03-01T07:45:00Z", "2026-03-01T07:45:00+01:00"}) {
        INFO(text);
        CHECK_FALSE(parse_time(text));
    }
}

TEST_CASE("every time within four-digit years comes back as it went") {
    std::mt19937_64 random(11);
    std::uniform_int_distribution<UnixSeconds> any(-62'167'219'200, 253'402'300'799);
    for (int i = 0; i < 5000; ++i) {
        const UnixSeconds time = any(random);
        CHECK(parse_time(format_time(time)) == time);
    }
}

TEST_CASE("a clock gone mad gives the end of the calendar, not nonsense") {
    CHECK(format_time(std::numeric_limits<UnixSeconds>::max()) == "9999-12-31T23:59:59Z");
    CHECK(format_time(std::numeric_limits<UnixSeconds>::min()) == "0000-01-01T00:00:00Z");
}

TEST_CASE("the system's clock does not stand in the past of this project") {
    CHECK(system_clock().now() > 1'700'000'000);
}
