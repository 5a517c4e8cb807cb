// What H to L has to be for a proof: it follows what joins the lines on this vehicle.
#include "halfsplit/advice/right_resistance.hpp"

#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/harness/variants.hpp"
#include "halfsplit/report/step_text.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"

#include <cmath>

using namespace halfsplit;
using advice::right_resistance;
using nlohmann::json;

namespace {

json small() {
    return json::parse(test::read_file("tests/data/small_chain.json"));
}

std::optional<advice::RightResistance> right_of(const json& harness) {
    return right_resistance(test::harness_from_text(harness.dump()), 0);
}

// GW and M1 are on the vehicle, M2 is not.
json without_terminators() {
    json harness = small();
    harness["modules"][0]["buses"][0] = {
        {"network", "main"}, {"attach", "spur"}, {"pins", {{"h", "1"}, {"l", "2"}}}, {"terminator", "none"}};
    harness["terminators"] = json::array();
    harness["runs"].erase(
        std::remove_if(harness["runs"].begin(), harness["runs"].end(),
                       [](const json& run) { return run.dump().find("T1:") != std::string::npos; }),
        harness["runs"].end());
    harness["networks"][0]["terminators"] = 0;
    return harness;
}

}  // namespace

TEST_CASE("H to L is right by the terminators that are on the vehicle") {
    const auto two = right_of(small());
    REQUIRE(two);
    CHECK(*two->nominal_ohm == Approx(60));
    CHECK(two->accepts(54));
    CHECK(two->accepts(69));
    CHECK_FALSE(two->accepts(53.9));
    CHECK_FALSE(two->accepts(69.1));

    json third = small();
    third["modules"][1]["buses"][0]["terminator"] = "switched-on";
    const auto three = right_of(third);
    CHECK(*three->nominal_ohm == Approx(40));
    CHECK(three->accepts(40));
    CHECK_FALSE(three->accepts(60));

    third["modules"][1]["buses"][0]["terminator"] = "switched-off";
    CHECK(*right_of(third)->nominal_ohm == Approx(60));

    json other_ohms = small();
    other_ohms["terminators"][0]["ohm"] = 100;
    CHECK(*right_of(other_ohms)->nominal_ohm == Approx(1 / (1 / 120.0 + 1 / 100.0)));
}

// ISO 11898-2: 10 to 100 kohm each.
TEST_CASE("without terminators H to L is right by the modules") {
    const auto right = right_of(without_terminators());
    REQUIRE(right);
    CHECK_FALSE(right->nominal_ohm);
    CHECK(right->low_ohm == Approx(5000));
    CHECK(right->high_ohm == Approx(50000));
    CHECK_FALSE(right->accepts(60));
    CHECK_FALSE(right->accepts(INFINITY));
}

TEST_CASE("an option that is not known leaves open what H to L has to be") {
    json harness = small();
    harness["options"][0]["fitted"] = "unknown";
    harness["modules"][2]["buses"][0]["terminator"] = "built-in";  // of the lift
    const auto right = right_of(harness);
    REQUIRE(right);
    CHECK_FALSE(right->nominal_ohm);
    CHECK(right->accepts(60));
    CHECK(right->accepts(40));
    CHECK_FALSE(right->accepts(80));
}

TEST_CASE("on a kind of bus whose terminators are not known H to L proves nothing") {
    json harness = without_terminators();
    harness["networks"][0].erase("terminators");
    harness["networks"][0]["kind"] = "other";
    CHECK_FALSE(right_of(harness));
    harness["networks"][0]["kind"] = "iso11898-3";
    CHECK_FALSE(right_of(harness));
}

TEST_CASE("the proof that is asked for says what is accepted on this bus") {
    advice::Recommendation verify;
    verify.action = advice::Action::Verify;
    const auto said = [&](const json& harness) {
        return report::step_text(verify, test::harness_from_text(harness.dump()), 0, {.columns = 400});
    };
    CHECK(said(small()).find("(60 ohm nominal; 54 to 69 accepted, common practice)") != std::string::npos);
    CHECK(said(without_terminators()).find("(no terminators: 5 kohm to 50 kohm accepted)") !=
          std::string::npos);
    // Only the lift, of which nobody knows whether it is there, has one.
    json perhaps = without_terminators();
    perhaps["options"][0]["fitted"] = "unknown";
    perhaps["modules"][2]["buses"][0]["terminator"] = "built-in";
    CHECK(said(perhaps).find("(108 ohm to 50 kohm accepted)") != std::string::npos);
    json other = without_terminators();
    other["networks"][0].erase("terminators");
    other["networks"][0]["kind"] = "other";
    CHECK(said(other).find("(as the maker states it)") != std::string::npos);
}
