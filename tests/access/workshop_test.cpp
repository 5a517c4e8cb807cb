#include "halfsplit/access/workshop.hpp"

#include "support/catch.hpp"

#include <limits>
#include <stdexcept>

namespace halfsplit::access {

namespace {

// Cover 0 lies over 1, which lies over 2; 3 stands alone. The minutes are made up, the sums are done by hand.
Workshop three_deep() {
    return {{{1, 2, 0}, {10, 5, 0b0001}, {100, 50, 0b0010}, {7, 3, 0}}, 2, {0, 4, 6, 0}};
}

}  // namespace

TEST_CASE("A cover brings along every cover that lies over it") {
    const Workshop workshop = three_deep();
    CHECK(workshop.closure(0b0100) == 0b0111);
    CHECK(workshop.closure(0b1010) == 0b1011);
    CHECK(workshop.closure(0) == 0);
    CHECK(workshop.closure(~CoverSet{0}) == 0b1111);
}

TEST_CASE("Taking covers off owes their refitting at once and only for those still on") {
    const Workshop workshop = three_deep();
    CHECK(workshop.open(0b0111, 0) == Approx(168));
    CHECK(workshop.open(0b0111, 0b0001) == Approx(165));
    CHECK(workshop.open(0b0111, 0b0111) == Approx(0));
    CHECK(workshop.open(0b1000, 0b0111) == Approx(10));
}

TEST_CASE("Reaching a site is walking, opening and the site's own minutes") {
    const Workshop workshop = three_deep();
    const Site site{1, workshop.closure(0b0010), 2.5};
    CHECK(workshop.reach(site, 0, 0) == Approx(4 + 18 + 2.5));
    CHECK(workshop.reach(site, 1, 0b0011) == Approx(2.5));
    CHECK(workshop.travel(1, 0) == Approx(6));
}

TEST_CASE("A workshop without figures is one place without covers") {
    const Workshop workshop;
    CHECK(workshop.places() == 1);
    CHECK(workshop.covers() == 0);
    CHECK(workshop.reach({0, 0, 3}, 0, 0) == Approx(3));
}

TEST_CASE("Sixty-four covers are accepted and one more is refused") {
    std::vector<Cover> covers(most_covers, Cover{1, 0, 0});
    const Workshop workshop(covers, 1, {0});
    CHECK(workshop.open(~CoverSet{0}, 0) == Approx(64));
    covers.push_back({});
    CHECK_THROWS_AS(Workshop(covers, 1, {0}), std::invalid_argument);
}

TEST_CASE("A workshop refuses figures that make no sense and names them") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_WITH(Workshop({{1, 1, 0b10}, {1, 1, 0b01}}, 1, {0}),
                      Catch::Contains("cover 0 lies over itself"));
    CHECK_THROWS_WITH(Workshop({{1, 1, 0b1}}, 1, {0}), Catch::Contains("cover 0 lies over itself"));
    CHECK_THROWS_WITH(Workshop({{1, 1, 0b100}}, 1, {0}), Catch::Contains("not there"));
    CHECK_THROWS_WITH(Workshop({{1, 1, 0}, {-1, 1, 0}}, 1, {0}), Catch::Contains("cover 1: off_minutes"));
    CHECK_THROWS_WITH(Workshop({{1, nan, 0}}, 1, {0}), Catch::Contains("cover 0: on_minutes"));
    CHECK_THROWS_WITH(Workshop({}, 2, {0, 1, 1}), Catch::Contains("3 entries for 2 places"));
    CHECK_THROWS_WITH(Workshop({}, 2, {0, -1, 1, 0}), Catch::Contains("from place 0 to place 1"));
    CHECK_THROWS_WITH(Workshop({}, 1, {std::numeric_limits<double>::infinity()}),
                      Catch::Contains("not finite"));
    CHECK_THROWS_AS(Workshop({}, 0, {}), std::invalid_argument);
    CHECK_THROWS_AS(Workshop({}, std::size_t{1} << 33U, {0}), std::invalid_argument);
}

}  // namespace halfsplit::access
