#include "halfsplit/advice/granted.hpp"

#include "support/catch.hpp"

namespace halfsplit::advice {

namespace {

Recommendation unplug_first() {
    Recommendation advice;
    advice.action = Action::Read;
    advice.red.name = "X1.a:4";
    advice.black.name = "X1.a:5";
    Preparation first;
    first.step = "unplug";
    first.spot.part = "T1";
    advice.prepare.push_back(first);
    return advice;
}

job::Reading reading(const char* red, job::Outcome outcome = job::Outcome::Value) {
    return {.red = red, .black = "X1.a:5", .outcome = outcome, .value = 120};
}

}  // namespace

TEST_CASE("whoever gives the value that was asked for has unplugged what was to be unplugged first") {
    const auto events = granted(unplug_first(), reading("X1.a:4"));
    REQUIRE(events.size() == 1);
    REQUIRE(std::get<job::PlugChange>(events.front()) == job::PlugChange{"T1", false, false});
}

TEST_CASE("another reading, or one that could not be reached, grants nothing") {
    CHECK(granted(unplug_first(), reading("X1.b:4")).empty());
    CHECK(granted(unplug_first(), reading("X1.a:4", job::Outcome::CouldNotReach)).empty());
    CHECK(granted(unplug_first(), job::Remark{"tea"}).empty());
}

TEST_CASE("whoever gives the volts that were asked for has connected the battery; ohms grant no such thing") {
    Recommendation advice = unplug_first();
    advice.quantity = "volt";
    advice.bus = "awake";
    advice.prepare.front() = {};
    advice.prepare.front().step = "wake";
    job::Reading volts = reading("X1.a:4");
    volts.quantity = job::Quantity::Volt;
    const auto events = granted(advice, volts);
    REQUIRE(events.size() == 1);
    CHECK(std::get<job::SafeState>(events.front()) == job::SafeState{});
    CHECK(granted(advice, reading("X1.a:4")).empty());
    volts.outcome = job::Outcome::CouldNotReach;
    CHECK(granted(advice, volts).empty());
    advice.prepare.front().step = "sleep";
    volts.outcome = job::Outcome::NotSure;
    const auto asleep = granted(advice, volts);
    REQUIRE(asleep.size() == 1);
    CHECK(std::get<job::SafeState>(asleep.front()) == job::SafeState{true, true, false, 0});
}

TEST_CASE("whoever proves a repair has plugged everything in") {
    Recommendation advice = unplug_first();
    advice.action = Action::Verify;
    advice.prepare.front().step = "plug";
    const auto events = granted(advice, job::Verified{});
    REQUIRE(events.size() == 1);
    CHECK(std::get<job::PlugChange>(events.front()).plugged);
}

}  // namespace halfsplit::advice
