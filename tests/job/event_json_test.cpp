#include "halfsplit/job/event_json.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/random_event.hpp"

#include <limits>
#include <set>

using namespace halfsplit;
using namespace halfsplit::job;
using nlohmann::json;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

std::string refusal(const json& event) {
    try {
        (void)event_from_json(event);
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "accepted";
}

}  // namespace

TEST_CASE("every event comes back from its text exactly as it went") {
    test::RandomEvents events(1);
    for (std::size_t index = 0; index < std::variant_size_v<Body>; ++index) {
        for (int i = 0; i < 500; ++i) {
            const Event event = events.of_kind(index);
            const std::string text = to_json(event).dump();
            INFO(text);
            REQUIRE(event_from_json(json::parse(text)) == event);
            REQUIRE(event_from_json(to_json(event)) == event);
        }
    }
}

TEST_CASE("amends are told apart by what they put in place, and one without an event is like none other") {
    const auto amend = [](Sequence target, const Body& body) {
        return Amend{target, std::make_shared<const Event>(Event{body, {}})};
    };
    CHECK(amend(2, Remark{"a"}) == amend(2, Remark{"a"}));
    CHECK_FALSE(amend(2, Remark{"a"}) == amend(3, Remark{"a"}));
    CHECK_FALSE(amend(2, Remark{"a"}) == amend(2, Remark{"b"}));
    CHECK_FALSE(amend(2, Remark{"a"}) == Amend{2, nullptr});
    CHECK_FALSE(Amend{2, nullptr} == amend(2, Remark{"a"}));
    CHECK(Amend{2, nullptr} == Amend{2, nullptr});
}

TEST_CASE("each kind has a name of its own") {
    test::RandomEvents events(2);
    std::set<std::string> names;
    for (std::size_t index = 0; index < std::variant_size_v<Body>; ++index)
        names.insert(std::string(kind(events.of_kind(index))));
    CHECK(names == std::set<std::string>{"opened",   "intake",   "safe-state", "answers", "reading",
                                         "distance", "seen",     "cover",      "plug",    "clip",
                                         "repair",   "verified", "remark",     "paused",  "resumed",
                                         "closed",   "meter",    "pins",       "differs", "recommended",
                                         "amend",    "undo"});
}

TEST_CASE("a reading stands in the log as a person would expect it") {
    const Event event{Reading{"X3.a:4", "DS:6", Quantity::Ohm, Outcome::Value, 240.5, true}, 7};
    CHECK(to_json(event) ==
          json::parse(R"({"kind": "reading", "red": "X3.a:4", "black": "DS:6", "quantity": "ohm",
        "outcome": "value", "value": 240.5, "moved": true, "minutes": 7.0})"));
    CHECK(to_json({Reading{"A", "B", Quantity::Ohm, Outcome::Value, infinity, false}, {}}).at("value") ==
          "OL");
    CHECK_FALSE(to_json({Reading{"A", "B", Quantity::Ohm, Outcome::Open, 0, false}, {}}).contains("value"));
}

TEST_CASE("what JSON cannot hold is refused before anything is written") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(to_json({Remark{"\xFF"}, {}}), std::invalid_argument);
    CHECK_THROWS_AS(to_json({Remark{"\xED\xA0\x80"}, {}}), std::invalid_argument);
    CHECK_THROWS_AS(to_json({Reading{"A", "B", Quantity::Ohm, Outcome::Value, nan, false}, {}}),
                    std::invalid_argument);
    CHECK_THROWS_AS(to_json({Reading{"A", "B", Quantity::Ohm, Outcome::Value, -infinity, false}, {}}),
                    std::invalid_argument);
    CHECK_THROWS_AS(to_json({Remark{"a"}, infinity}), std::invalid_argument);
    CHECK_THROWS_AS(to_json({Remark{"a"}, -1}), std::invalid_argument);
    CHECK_THROWS_AS(to_json({SafeState{true, true, true, -1}, {}}), std::invalid_argument);
    CHECK_THROWS_AS(to_json({Amend{2, nullptr}, {}}), std::invalid_argument);
}

TEST_CASE("what is no event is refused in words that name the member") {
    CHECK(refusal(json::array()) == "the event is not an object");
    CHECK(refusal(json::object()) == "the event lacks its member \"kind\"");
    CHECK(refusal({{"kind", "danced"}}) ==
          "member \"kind\" of the event holds \"danced\", which is not known to this version");
    CHECK(refusal({{"kind", "clip"}, {"point", 4}}) == "member \"point\" of the event is not text");
    CHECK(refusal({{"kind", "paused"}, {"why", "lunch"}}) ==
          "member \"why\" of the event is not known to this version");
    CHECK(refusal({{"kind", "paused"}, {"minutes", -1}}) == "member \"minutes\" of the event is below zero");
    CHECK(refusal({{"kind", "undo"}, {"target", 0}}) ==
          "member \"target\" of the event is not a whole number from 1");
    CHECK(refusal({{"kind", "undo"}, {"target", 1.5}}) ==
          "member \"target\" of the event is not a whole number from 1");
}

TEST_CASE("amends do not nest, and never bring in an opening, an advice or an undo") {
    for (const char* inner : {"amend", "undo", "opened", "recommended"}) {
        const json event{{"kind", "amend"}, {"target", 2}, {"event", {{"kind", inner}}}};
        CHECK(refusal(event).find("cannot take a record's place") != std::string::npos);
    }
}

TEST_CASE("a job of a later format is told as such") {
    json event = to_json({Opened{}, {}});
    event["version"] = 2;
    CHECK(refusal(event).find("another version of the program") != std::string::npos);
}

TEST_CASE("a part that is reached elsewhere, without saying where, is refused") {
    const json event{{"kind", "differs"}, {"what", "place"}, {"id", "X2"}};
    CHECK(refusal(event).find("lacks its member \"place\"") != std::string::npos);
}

TEST_CASE("no member may be missing, of any kind") {
    test::RandomEvents events(3);
    for (std::size_t index = 0; index < std::variant_size_v<Body>; ++index) {
        const json whole = to_json({events.of_kind(index).body, {}});
        if (whole.at("kind") == "verified") continue;  // whose members may all be missing
        // A connector may have one line, sit anywhere in its run, and be reached as the run is.
        const bool of_connector = whole.value("what", "") == "connector";
        for (const auto& member : whole.items()) {
            if (of_connector && std::set<std::string>{"l", "after_m", "place"}.contains(member.key()))
                continue;
            json less = whole;
            less.erase(member.key());
            INFO(less);
            CHECK(refusal(less).find("lacks its member") != std::string::npos);
        }
    }
}
