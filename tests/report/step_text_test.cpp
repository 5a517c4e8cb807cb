// A step as it is shown, where no transcript comes to it.
#include "halfsplit/report/step_text.hpp"

#include "support/catch.hpp"
#include "support/small_chain.hpp"

using namespace halfsplit;

namespace {

advice::Recommendation volts_from_a_dead_bus() {
    advice::Recommendation advice;
    advice.action = advice::Action::Read;
    advice.quantity = "volt";
    advice.bus = "awake";
    advice.red.name = "X1.a:4";
    advice.red.part = "X1";
    advice.red.cavity = "4";
    advice.red.line = "H";
    advice.black.name = "ground";
    advice.prepare.emplace_back();
    advice.prepare.front().step = "wake";
    advice.prepare.front().minutes = 14;
    return advice;
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("volts on a dead bus say what to switch on, what that costs, and that the circuit is live") {
    auto advice = volts_from_a_dead_bus();
    const std::string text = report::step_text(advice, test::small_chain(), 0, {200, false});
    CHECK(holds(text,
                "power  battery on, ignition on, bus awake; 14 min with battery off and waiting again\n"));
    CHECK(holds(text, "CARE   Live circuit: the maker's procedure"));
    CHECK(holds(text, "other  any good ground near by\n"));
    CHECK(report::prompt_text(advice) == "X1.a:4 to ground, volts");
    advice.bus = "asleep";
    advice.prepare.clear();
    const std::string asleep = report::step_text(advice, test::small_chain(), 0, {200, false});
    CHECK(holds(asleep, "power  battery on, ignition off, bus asleep (left alone until it sleeps)\n"));
}

TEST_CASE("an alternative in volts says so, with the battery that has to be on") {
    auto advice = volts_from_a_dead_bus();
    advice.alternatives.push_back({.red = "DS:6",
                                   .black = "ground",
                                   .quantity = "volt",
                                   .prepare = "battery on, bus awake",
                                   .more_minutes = 12});
    const std::string text = report::step_text(advice, test::small_chain(), 0, {200, false});
    CHECK(holds(text, "or     battery on, bus awake, then DS:6 to ground, volts: 12 min more\n"));
}
