#include "halfsplit/diagnosis/meter.hpp"

#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/harness/meter_profile.hpp"

#include "support/catch.hpp"

#include <cmath>
#include <limits>

using namespace halfsplit::diagnosis;

namespace {
const halfsplit::harness::Assumptions usual;
constexpr double ol = std::numeric_limits<double>::infinity();

double chance(double shown, double predicted, double spread = 0) {
    return likelihood({.shown = Shown::Ohm, .ohm = shown}, {predicted, spread}, usual).total;
}

// With the meter of that name.
double chance_with(const std::string& name, double shown, double predicted) {
    halfsplit::harness::Assumptions rates;
    for (const auto& profile : halfsplit::harness::meter_profiles()) {
        if (profile.name == name) use(profile, rates);
    }
    return likelihood({.shown = Shown::Ohm, .ohm = shown}, {predicted}, rates).honest;
}
}  // namespace

TEST_CASE("a reading at a point that is not there is laid to none of the wires beside it") {
    const double nowhere = std::numeric_limits<double>::quiet_NaN();
    const auto chance = likelihood({.ohm = 60}, {nowhere, 0}, {}, {{60, 5}, {nowhere, 0}});
    CHECK(chance.wrong_by == std::vector<double>{0, 0});
    CHECK(chance.total > 0);
}

TEST_CASE("an open is weaker evidence than a closed") {
    // Reading OL where the line is whole happens at the rate of contact slips; reading 0.3 where it is open
    // hardly ever.
    const double open_though_whole = chance(ol, 0.3) / chance(ol, ol);
    const double whole_though_open = chance(0.3, ol) / chance(0.3, 0.3);
    REQUIRE(open_though_whole == Approx(0.03 * 0.9).epsilon(0.1));
    REQUIRE(whole_though_open < 0.01);
}

TEST_CASE("240 ohm speaks for the way round, not for a whole line and not for two open lines") {
    REQUIRE(chance(240, 240) > 100 * chance(240, 0.3));
    REQUIRE(chance(240, 240) > 100 * chance(240, ol));
}

TEST_CASE("terminators within the standard's tolerance still fit") {
    // ISO 11898-2: 100 to 130 ohm each, so 50 to 65 H to L.
    const double spread = 30 * terminator_spread * std::sqrt(2.0);
    REQUIRE(chance(55, 60, spread) > 0.1 * chance(60, 60, spread));
    REQUIRE(chance(65, 60, spread) > 0.1 * chance(60, 60, spread));
    REQUIRE(chance(120, 60, spread) < 0.01 * chance(60, 60, spread));
}

TEST_CASE("a beep below the lowest threshold of the manuals is certain, above the highest it never comes") {
    // 20 to 120 ohm in seven meters' manuals.
    const auto beep = [](double predicted) {
        return likelihood({.shown = Shown::Closed}, {predicted}, usual).honest;
    };
    REQUIRE(beep(1) == 1);
    REQUIRE(beep(20) == 1);
    REQUIRE(beep(120) == 0);
    REQUIRE(beep(60) > 0.2);
    REQUIRE(beep(60) < 0.8);
    const auto silent = likelihood({.shown = Shown::Open}, {60}, usual);
    REQUIRE(silent.honest == Approx(1 - beep(60)));
}

TEST_CASE("no reading is ever impossible, so that nothing is ruled out for good") {
    for (const double predicted : {0.0, 0.3, 60.0, 240.0, 1e5, ol}) {
        for (const double shown : {0.0, 0.5, 60.0, 3100.0, 1e7, ol}) REQUIRE(chance(shown, predicted) > 0);
        REQUIRE(likelihood({.shown = Shown::Closed}, {predicted}, usual).total > 0);
        REQUIRE(likelihood({.shown = Shown::Open}, {predicted}, usual).total > 0);
    }
    REQUIRE(likelihood({.shown = Shown::Ohm, .ohm = 1}, {std::nan("")}, usual).total > 0);
}

TEST_CASE("the parts of a likelihood add up to its total") {
    for (const double predicted : {0.3, 60.0, 240.0, ol}) {
        for (const double shown : {0.5, 60.0, ol}) {
            const Likelihood one =
                likelihood({.shown = Shown::Ohm, .ohm = shown}, {predicted}, usual, {{ol}});
            const double honest_share = 1 - usual.contact_slip - usual.wrong_wire;
            REQUIRE(one.total == Approx(honest_share * one.honest + one.slip + one.wrong));
        }
    }
}

TEST_CASE("what a careful person with a meter can tell apart") {
    REQUIRE(distinguishable(0.3, 60));
    REQUIRE(distinguishable(60, 120));
    REQUIRE(distinguishable(120, 240));
    REQUIRE(distinguishable(240, ol));
    REQUIRE_FALSE(distinguishable(0.3, 0.9));
    REQUIRE_FALSE(distinguishable(60, 65));  // a bad joint of 20 ohm, from either end
    REQUIRE_FALSE(distinguishable(ol, 1e9));
}

TEST_CASE("the finer the meter, the more a figure beside the prediction tells against it") {
    // 2.5 ohm off 60: five standard deviations of a fine meter, three and a half of a plain one, two of a
    // rough one, contacts and leads included (arithmetic).
    const auto against = [](const std::string& meter) {
        return chance_with(meter, 57.5, 60) / chance_with(meter, 60, 60);
    };
    CHECK(against("fine") < 1e-5);
    CHECK(against("plain") < against("rough") / 20);
    CHECK(against("plain") > 20 * against("fine"));
    CHECK(against("rough") > 0.01);
}

TEST_CASE("the plain meter is what is assumed where nobody says which") {
    halfsplit::harness::Assumptions rates;
    use(halfsplit::harness::meter_profiles().front(), rates);
    CHECK(halfsplit::harness::meter_profiles().front().name == "plain");
    CHECK(chance_with("plain", 61, 60) == likelihood({.ohm = 61}, {60}, usual).honest);
    CHECK(rates.meter_limit_ohm == meter_limit_ohm);
}

TEST_CASE("accuracy is a limit of percent and last places, and a limit is two standard deviations") {
    // 1 % of 1000.2 ohm (leads 0.2) and 3 places of 1 ohm (a range of 4000 counts): 13.0 ohm, so one standard
    // deviation is 6.5 ohm. A bell has half its height 1.177, and a tenth 2.146 of them off (arithmetic).
    const auto off = [](double deviations) {
        return likelihood({.ohm = 1000.2 + deviations * 6.515}, {1000}, usual).honest;
    };
    // Both sides together, because the bell is one of logarithms and leans a little.
    CHECK(off(1.177) / off(2.146) * off(-1.177) / off(-2.146) == Approx(25).epsilon(0.01));
}

TEST_CASE("a meter shows OL from its own limit on") {
    CHECK(chance_with("rough", ol, 3e6) == 1);
    CHECK(chance_with("rough", 1.9e6, 3e6) == 0);
    CHECK(chance_with("plain", ol, 3e6) < 0.2);
    CHECK(chance_with("plain", 3e6, 3e6) > 0);
    CHECK(chance_with("fine", ol, 45e6) < 0.2);
    CHECK(chance_with("plain", ol, 45e6) == 1);
}
