#include "halfsplit/electrics/conductor.hpp"

#include "support/catch.hpp"

using namespace halfsplit::electrics;

TEST_CASE("wire gauges have the ohms per metre of the published table") {
    // Formula of ASTM B258 with the resistivity of IEC 60028, per metre: 20 AWG 33.31, 22 AWG 52.96 mohm
    // (computed); the same per 1000 ft in Floyd's table (hyperphysics.phy-astr.gsu.edu): 18: 6.385,
    // 20: 10.15, 22: 16.14, 24: 25.67.
    REQUIRE(1000 * copper_ohm_per_m(awg_section_mm2(20)) == Approx(33.31).epsilon(1e-3));
    REQUIRE(1000 * copper_ohm_per_m(awg_section_mm2(22)) == Approx(52.96).epsilon(1e-3));
    constexpr double metres_per_1000_feet = 304.8;
    REQUIRE(metres_per_1000_feet * copper_ohm_per_m(awg_section_mm2(18)) == Approx(6.385).epsilon(1e-3));
    REQUIRE(metres_per_1000_feet * copper_ohm_per_m(awg_section_mm2(24)) == Approx(25.67).epsilon(1e-3));
}

TEST_CASE("a section of copper stays below the limit of the cable standard") {
    // IEC 60228 class 5, plain copper, largest resistance at 20 degC: 0.5 mm2 39.0, 1.0 mm2 19.5 mohm/m.
    REQUIRE(1000 * copper_ohm_per_m(0.5) < 39.0);
    REQUIRE(1000 * copper_ohm_per_m(1.0) < 19.5);
    REQUIRE(1000 * copper_ohm_per_m(0.5) > 0.85 * 39.0);
}

TEST_CASE("copper rises with temperature as the standard's factors say") {
    // IEC 60228 temperature factor Kt (R20 = Rt * Kt): 40 degC 0.926, 60 degC 0.862.
    REQUIRE(copper_ohm_per_m(1.0) / copper_ohm_per_m(1.0, 40) == Approx(0.926).epsilon(2e-3));
    REQUIRE(copper_ohm_per_m(1.0) / copper_ohm_per_m(1.0, 60) == Approx(0.862).epsilon(3e-3));
}
