#include "advice/reading_bands.hpp"

#include "halfsplit/diagnosis/meter.hpp"

#include "support/catch.hpp"

#include <cmath>
#include <limits>
#include <random>

namespace halfsplit::advice {

namespace {

constexpr double open = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("what a meter may show for 60, 120 and open leaves room for terminators of 100 to 130 ohm") {
    const auto room = bands({{60, 60}, {120, 120}, {open, open}});
    // ISO 11898-2: 100 to 130 ohm each, so that two in parallel are 50 to 65.
    CHECK(room[0].low <= 54);
    CHECK(room[0].high >= 65);
    CHECK(room[1].low > room[0].high - 1e-9);
    CHECK(room[1].high >= 130);
    CHECK(std::isinf(room[2].low));
    CHECK(std::isinf(room[2].high));
}

TEST_CASE("a closed line reads from nothing at all up to a few ohm") {
    const auto room = bands({{0.1, 0.4}, {open, open}, {0, 0, true}});
    CHECK(room[0].low == 0);
    CHECK(room[0].high == Approx(2.4));
    CHECK(room[2].high == 0);
}

TEST_CASE("from kilohms up the highest figure goes to what the meter shows") {
    const auto room = bands({{3000, 20'000}, {open, open}});
    CHECK(room[0].high == diagnosis::meter_limit_ohm);
    CHECK(room[0].low < 3000);
    CHECK(bands({{60, 60}, {open, open}}).front().high < 100);
}

TEST_CASE("each prediction lies in its own band and in no other, and ends are round") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> decade(-1, 5);
    for (int round = 0; round < 300; ++round) {
        std::vector<double> predicted, weights;
        for (int i = 0; i < 12; ++i) {
            predicted.push_back(std::pow(10, decade(random)));
            weights.push_back(1);
        }
        std::vector<OutcomeClass> classes;
        const auto outcome = classify(predicted, heaviest_first(weights), classes);
        const auto room = bands(classes);
        REQUIRE(room.size() == classes.size());
        for (std::size_t i = 0; i < predicted.size(); ++i) {
            for (std::size_t band = 0; band < room.size(); ++band) {
                const bool inside = predicted[i] >= room[band].low && predicted[i] <= room[band].high;
                CAPTURE(round, predicted[i], room[band].low, room[band].high);
                CHECK(inside == (static_cast<int>(band) == outcome[i]));
            }
        }
        for (std::size_t band = 1; band < room.size(); ++band) CHECK(room[band].low >= room[band - 1].high);
    }
}

TEST_CASE("volts have room on both sides and keep to their own half") {
    const auto room = bands({{.volts = true, .low_volt = 0, .high_volt = 0},
                             {.volts = true, .low_volt = 0.35, .high_volt = 0.4},
                             {.volts = true, .low_volt = 2.5, .high_volt = 2.5}});
    CHECK(room[0].low == Approx(-0.2));
    CHECK(room[0].high == room[1].low);
    CHECK(room[1].high == Approx(0.6));
    CHECK(room[2].low == Approx(2.3));
}

}  // namespace halfsplit::advice
