// The entries `meter` and `pins`: what is known of the meter and of the hand that holds it.
#include "halfsplit/base/text.hpp"
#include "halfsplit/job/words.hpp"

#include "support/catch.hpp"
#include "support/small_chain.hpp"

using namespace halfsplit;
using namespace halfsplit::job;
using harness::MeterProfile;

namespace {

Body parse(const std::string& words) {
    return parse_event(split_words(words), test::small_chain(), {}, {}).body;
}

MeterProfile meter(const std::string& words) {
    return std::get<MeterUsed>(parse(words)).meter;
}

Finding refusal(const std::string& words) {
    try {
        (void)parse(words);
    } catch (const InputError& error) {
        return error.findings().front();
    }
    FAIL("accepted: " << words);
    throw std::logic_error("not reached");
}

std::string told(const Body& body) {
    return in_words({body, {}}, test::small_chain());
}

}  // namespace

TEST_CASE("a meter is named by its profile") {
    REQUIRE(harness::meter_profiles().size() == 3);
    for (const MeterProfile& profile : harness::meter_profiles())
        CHECK(meter("meter " + profile.name) == profile);
    CHECK(meter("meter FINE").name == "fine");
}

TEST_CASE("a meter of one's own begins as the plain one, and its figures are said one by one") {
    const MeterProfile own =
        meter("meter mine percent=0.8 digits=5 counts=6000 leads=0.3 limit=60M buzzer=25-90");
    CHECK(own == MeterProfile{"mine", 0.8, 5, 6000, 0.3, 60e6, 25, 90});
    MeterProfile one_figure = meter("meter plain");
    one_figure.name = "mine";
    one_figure.counts = 2000;
    CHECK(meter("meter mine counts=2000") == one_figure);
    const MeterProfile buzzer = meter("meter mine buzzer=30");
    CHECK(buzzer.buzzer_low_ohm == 30);
    CHECK(buzzer.buzzer_high_ohm == 30);
}

TEST_CASE("a named meter with a figure of its own says that it was changed") {
    MeterProfile changed = meter("meter rough");
    changed.name = "rough, changed";
    changed.percent = 1.5;
    CHECK(meter("meter rough percent=1.5") == changed);
}

TEST_CASE("a meter that nobody knows is refused with the nearest name") {
    const Finding unknown = refusal("meter fien");
    CHECK(unknown.id == "event-name-unknown");
    CHECK(unknown.message == "no meter is named 'fien'");
    CHECK(unknown.expected == "the name of a meter: plain, fine and rough, or one of your own");
    CHECK(unknown.nearest == "fine");
    for (const char* words : {"meter", "meter percent=0.8"}) {
        INFO(words);
        CHECK(refusal(words).id == "event-word-missing");
        CHECK(refusal(words).message == "the meter has no name");
    }
}

TEST_CASE("figures that are no meter's are refused with what would fit") {
    CHECK(refusal("meter mine percnt=1").id == "event-word-unknown");
    CHECK(refusal("meter mine percnt=1").nearest == "percent");
    const Finding reversed = refusal("meter mine buzzer=120-20");
    CHECK(reversed.message == "'120-20' is no range of ohms that fits here");
    CHECK(reversed.expected == "the lower figure first, both above 0");
    CHECK(refusal("meter mine leads=200").message == "leads=200 is no meter's");
    CHECK(refusal("meter mine leads=200").expected ==
          "counts from 100, leads up to 100 ohm, a limit from 1000 ohm");
    CHECK(refusal("meter mine percent=21").expected == "a number from 0 to 20");
    for (const char* figure : {"percent=-1", "percent=much", "digits=101", "counts=99", "counts=2e4",
                               "leads=OL", "limit=999", "limit=40m", "limit=OL", "buzzer=0", "buzzer=20-",
                               "buzzer=OL", "buzzer=20-OL", "buzzer=20-40-60"}) {
        INFO(figure);
        CHECK(refusal(std::string("meter mine ") + figure).id == "event-value");
    }
}

TEST_CASE("pins tried are counted, and the slips among them") {
    CHECK(std::get<PinsTried>(parse("pins tried=20 slips=1")) == PinsTried{20, 1});
    CHECK(std::get<PinsTried>(parse("pins slips=1 tried=20")) == PinsTried{20, 1});
    CHECK(std::get<PinsTried>(parse("pins tried=5")) == PinsTried{5, 0});
    CHECK(std::get<PinsTried>(parse("pins tried=5 slips=5")) == PinsTried{5, 5});
}

TEST_CASE("slips without pins, or more of them than pins, are refused") {
    for (const char* words : {"pins slips=1", "pins tried=0", "pins tried=5 slips=6"}) {
        INFO(words);
        CHECK(refusal(words).id == "event-value");
        CHECK(refusal(words).message == "slips are counted among the pins tried");
        CHECK(refusal(words).next_step == "For example: pins tried=20 slips=1");
    }
    CHECK(refusal("pins").id == "event-word-missing");
    CHECK(refusal("pins tried=20 slip=1").nearest == "slips");
    for (const char* words : {"pins tried=1001", "pins tried=many", "pins tried=-1", "pins tried=2.5",
                              "pins tried=20 slips=0.5"}) {
        INFO(words);
        CHECK(refusal(words).id == "event-value");
    }
}

TEST_CASE("meter and pins are told back in words") {
    CHECK(told(parse("meter fine")) ==
          "Meter fine: 0.2 % and 2 digits of 50000 counts, leads 0.1 ohm, OL from 50 Mohm, buzzer 20 ohm to "
          "40 ohm.");
    CHECK(told(parse("pins tried=20 slips=1")) == "20 good pins tried, 1 slip.");
    CHECK(told(parse("pins tried=1")) == "1 good pin tried, 0 slips.");
}
