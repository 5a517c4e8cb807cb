// Distances as people type them, and every reason why one is refused.
#include "halfsplit/base/text.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/job/words.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"

#include <stdexcept>

using namespace halfsplit;
using namespace halfsplit::job;
using electrics::DistanceLines;
using electrics::DistanceMethod;

namespace {

State safe_with(std::vector<std::string> apart) {
    State state;
    state.opened.network = "main";
    state.safe_state = SafeState{true, true, true, 10};
    state.apart = std::move(apart);
    state.last = 4;
    return state;
}

const State unplugged = safe_with({"M1", "T1"});

Event parse(const std::string& words, const State& state = unplugged,
            const harness::Harness& harness = test::small_chain()) {
    return parse_event(split_words(words), harness, state, {});
}

Distance distance(const std::string& words) {
    return std::get<Distance>(parse(words).body);
}

Finding refusal(const std::string& words, const State& state = unplugged,
                const harness::Harness& harness = test::small_chain()) {
    try {
        (void)parse(words, state, harness);
    } catch (const InputError& error) {
        REQUIRE(error.findings().size() == 1);
        return error.findings().front();
    }
    FAIL("accepted: " << words);
    throw std::logic_error("not reached");
}

// The small chain with some of its text exchanged.
harness::Harness chain_with(const std::string& from, const std::string& to) {
    std::string text = test::read_file("tests/data/small_chain.json");
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return test::harness_from_text(text.replace(at, from.size(), to));
}

}  // namespace

// 60 pF/m (Schneider 890 manual, p. 83): 42 pF and 156 pF are 0.7 m and 2.6 m of 3.3 m.
TEST_CASE("a distance is typed with its ends, its line and a figure from either end") {
    const Distance open = distance("distance capacitance M1:3 T1:1 42pF 156pF");
    CHECK(open.method == DistanceMethod::Capacitance);
    CHECK(open.lines == DistanceLines::High);
    CHECK(open.from == "M1:3/4");
    CHECK(open.to == "T1:1/2");
    CHECK(open.first == Approx(42e-12));
    CHECK(open.metres == Approx(0.7));
    CHECK(open.deviation > 0.05);
    CHECK(open.deviation < 0.25);
    CHECK(open.run == "W5");
    CHECK(open.run_end == "M1:3");
    CHECK(open.metres_into_run == Approx(0.7));
    CHECK(open.also.empty());
    CHECK(distance("distance capacitance M1:3/4 T1:1/2 h 42pF 156pF") == open);
    CHECK(distance("Distance CAPACITANCE m1:3 t1:1/2 H 42p 156 pF") == open);
    CHECK(distance("distance capacitance M1:4 T1:2 42pF 156pF").lines == DistanceLines::Low);
    CHECK(distance("distance capacitance M1:3 T1:1 hl 42pF 156pF").lines == DistanceLines::Between);
}

TEST_CASE("a distance from the other end falls at the same place") {
    const Distance back = distance("distance capacitance T1:2 M1:4 156pF 42pF");
    CHECK(back.metres == Approx(2.6));
    CHECK(back.run == "W5");
    CHECK(back.run_end == "X2.a:2");
    CHECK(back.metres_into_run == Approx(0.8));
}

TEST_CASE("a distance names the other parts that lie within its uncertainty") {
    const Distance near = distance("distance capacitance M1:3 T1:1 150pF 170pF");
    CHECK(near.run == "W6");
    CHECK(near.run_end == "X2.b:1");
    CHECK(near.also == std::vector<std::string>{"W5", "X2"});
}

TEST_CASE("ohms from both ends and a loop bridge are told the same way") {
    const Distance ohms = distance("distance ohms M1:3/4 T1:1/2 hl 1.0 1.05");
    CHECK(ohms.method == DistanceMethod::Ohms);
    CHECK(ohms.lines == DistanceLines::Between);
    // By hand: W5 0.0517 ohm, X2 0.01, W6 0.03331 a metre, a line 0.1625 in all: 0.0125 ohm before its
    // middle.
    CHECK(ohms.metres == Approx(1.5 + (0.0812 - 0.0125 - 0.0617) / 0.03331).margin(0.01));
    CHECK(distance("distance ohms M1:3 T1:1 h 1 1.05").lines == DistanceLines::High);
    const Distance loop = distance("distance loop M1:4 T1:2 300 100");
    CHECK(loop.method == DistanceMethod::Loop);
    CHECK(loop.lines == DistanceLines::Low);
    // A quarter of the loop: the middle of the way in ohms.
    CHECK(loop.metres == Approx(1.5 + (0.0812 - 0.0617) / 0.03331).margin(0.01));
}

TEST_CASE("a distance is told back in plain words") {
    CHECK(in_words(parse("distance capacitance M1:3 T1:1 42pF 156pF"), test::small_chain()) ==
          "Distance to an open of line BUS-H, M1:3/4 42 pF, T1:1/2 156 pF: 0.70 m from M1:3/4, give or take "
          "0.15 m; that is in run W5, 0.70 m from its end at M1:3.");
    CHECK(in_words(parse("distance ohms M1:3 T1:1 h 1.3 1.3"), test::small_chain())
              .starts_with("Distance to a short to ground of line BUS-H, M1:3/4 1.3 ohm, T1:1/2 1.3 ohm: "));
    CHECK(in_words(parse("distance ohms M1:3 T1:1 hl 1.3 1.3"), test::small_chain())
              .starts_with("Distance to a short from line to line, "));
    CHECK(in_words(parse("distance capacitance M1:3 T1:1 hl 42pF 156pF"), test::small_chain())
              .starts_with("Distance to an open of either line, "));
    CHECK(in_words(parse("distance loop M1:4 T1:2 300 100"), test::small_chain())
              .starts_with(
                  "Distance to a short to ground of line BUS-L, bridge at M1:3/4 with P 300 and Q 100, "
                  "lines joined at T1:1/2: "));
}

TEST_CASE("what a whole line would read too is said so") {
    const auto told = [](const std::string& words) { return in_words(parse(words), test::small_chain()); };
    CHECK(told("distance capacitance M1:3 T1:1 198pF 200pF").ends_with("; a whole line reads so too."));
    CHECK(told("distance capacitance M1:3 T1:1 42pF 156pF").find("whole") == std::string::npos);
    CHECK(told("distance ohms M1:3 T1:1 hl 1.3 1.3").find("whole") == std::string::npos);
}

TEST_CASE("a distance comes back from the log as it was") {
    const std::vector<std::string> typed{"distance capacitance M1:3 T1:1 42pF 156pF minutes=6",
                                         "distance ohms M1:3 T1:1 hl 1.0 1.05",
                                         "distance loop M1:4 T1:2 300 100"};
    std::string text;
    std::vector<Event> events;
    for (const std::string& words : typed) {
        events.push_back(parse(words));
        const std::string checksum =
            text.empty() ? "" : checksum_of(text.substr(text.rfind('\n', text.size() - 2) + 1));
        text += to_line({events.size(), 1'772'351'100, events.back()}, checksum);
    }
    const Contents contents = read_log(text, "test.job");
    REQUIRE(contents.records.size() == events.size());
    for (std::size_t i = 0; i < events.size(); ++i) CHECK(contents.records[i].event == events[i]);
    CHECK(contents.records[0].event.minutes == 6.0);
}

TEST_CASE("no distance is measured while a terminator or a module is connected") {
    const std::string words = "distance capacitance M1:3 T1:1 42pF 156pF";
    const Finding all = refusal(words, safe_with({}));
    CHECK(all.id == "event-not-possible");
    CHECK(all.message.find("still connected to the stretch from M1:3/4 to T1:1/2") != std::string::npos);
    CHECK(all.next_step == "Unplug M1 and T1, say so (unplugged M1, unplugged T1), and measure again.");
    const Finding one = refusal(words, safe_with({"M1"}));
    CHECK(one.message == "T1 is still connected to the stretch from M1:3/4 to T1:1/2");
    CHECK(one.next_step == "Unplug T1, say so (unplugged T1), and measure again.");
    const Finding through = refusal("distance capacitance X1.b:4 X2.a:1 42pF 156pF", safe_with({"X1", "X2"}));
    CHECK(
        through.message ==
        "M1 (seat controller) is still connected to the stretch from X1.b:4/5 to X2.a:1/2, right on the way");
    CHECK(through.next_step ==
          "Measure on one side of it: name two ends with no module and no branch between them.");
}

TEST_CASE("no distance is measured along what branches, goes on, is parted or has no length") {
    const Finding branch = refusal("distance ohms DS:6 GW:1 hl 1 1", safe_with({"GW", "X1"}));
    CHECK(branch.message == "S1 branches off between the ends");
    const Finding on = refusal("distance ohms X2.b:1 T1:1 hl 1 1");
    CHECK(on.message == "the pair goes on beyond the stretch from X2.b:1/2 to T1:1/2");
    CHECK(on.next_step == "Unplug X2, say so (unplugged X2), and measure again.");
    const Finding parted = refusal("distance ohms M1:3 T1:1 hl 1 1", safe_with({"M1", "X2", "T1"}));
    CHECK(parted.message == "as things stand no wire leads from M1:3/4 to T1:1/2");
    const Finding bare = refusal("distance ohms M1:3 T1:1 hl 1 1", unplugged,
                                 chain_with("\"length_m\": 1.2", "\"length_m\": 0"));
    CHECK(bare.message == "W6 has no length in the harness file");
    for (const Finding& finding : {branch, on, parted, bare}) CHECK(finding.id == "event-not-possible");
}

TEST_CASE("where the file leaves open what is on the vehicle, a distance must be possible either way") {
    const harness::Harness open = chain_with("\"fitted\": \"no\"", "\"fitted\": \"unknown\"");
    const Finding finding = refusal("distance ohms M1:3 T1:1 hl 1 1", unplugged, open);
    CHECK(finding.id == "event-not-possible");
    CHECK(
        finding.message ==
        "M2 (lift controller) is still connected to the stretch from M1:3/4 to T1:1/2, right on the way, on "
        "a vehicle with Wheelchair lift");
    CHECK_NOTHROW(parse("distance ohms M1:3 X2.a:1 hl 1 1", safe_with({"M1", "X2"}), open));
}

TEST_CASE("no distance is measured on a live bus") {
    State live = unplugged;
    live.safe_state->battery_off = false;
    CHECK(refusal("distance capacitance M1:3 T1:1 42pF 156pF", live).id == "event-live-bus");
}

TEST_CASE("figures that no fault on the stretch can show are refused") {
    const Finding outside = refusal("distance ohms M1:3 T1:1 hl 1.0 9.0");
    CHECK(outside.id == "event-value");
    CHECK(outside.expected == "figures that put the fault on the 3.30 m from M1:3/4 to T1:1/2");
    CHECK(refusal("distance loop M1:3 T1:1 100 300").id == "event-value");
    CHECK(refusal("distance capacitance M1:3 T1:1 0pF 0pF").message == "the two figures add up to nothing");
    CHECK(refusal("distance ohms M1:3 T1:1 hl OL 2").id == "event-value");
}

TEST_CASE("malformed words are refused where they stand") {
    struct Case {
        const char *words, *id, *message;
    };
    for (const Case& each :
         {Case{"distance", "event-word-missing", "a word is missing at the end"},
          Case{"distance far", "event-word-unknown", "'far' does not fit here"},
          Case{"distance ohm M1:3 T1:1 hl 1 1", "event-word-unknown", "'ohm' does not fit here"},
          Case{"distance ohms", "event-word-missing", "a word is missing at the end"},
          Case{"distance ohms M9:3", "event-name-unknown", "no point is named 'M9:3'"},
          Case{"distance ohms M1:3 T1:1", "event-word-missing", "a word is missing at the end"},
          Case{"distance ohms M1:3 T1:1 1 1", "event-word-unknown", "'1' does not fit here"},
          Case{"distance ohms M1:3 M1:4 hl 1 1", "event-not-possible", "both ends are at M1:3/4"},
          Case{"distance ohms M1:3 T1:1 l 1 1", "event-not-possible",
               "an end was named by its terminal on line H"},
          Case{"distance capacitance M1:3 T1:2 1pF 1pF", "event-word-unknown", "'1pF' does not fit here"},
          Case{"distance loop M1:3 T1:1 hl 1 1", "event-not-possible",
               "a loop bridge finds a short of one line to ground"},
          Case{"distance capacitance M1:3 T1:1 42 156", "event-value",
               "'42' has no unit, and a meter changes from pF to nF by itself"},
          Case{"distance capacitance M1:3 T1:1 42mF 1pF", "event-value", "'42mF' is not a capacitance"},
          Case{"distance capacitance M1:3 T1:1 -4pF 1pF", "event-value", "'-4pF' is not a capacitance"},
          Case{"distance capacitance M1:3 T1:1 4pF", "event-word-missing", "a word is missing at the end"},
          Case{"distance ohms M1:3 T1:1 hl 1 -1", "event-value",
               "'-1' is below zero: ohms cannot be, unless something still feeds the bus"},
          Case{"distance ohms M1:3 T1:1 hl 1 1 1", "event-word-extra", "'1' is one word too many"}}) {
        INFO(each.words);
        const Finding finding = refusal(each.words);
        CHECK(finding.id == each.id);
        CHECK(finding.message == each.message);
    }
    CHECK(refusal("distance capacitance M1:3 T1:1 42 156").next_step ==
          "Type 42pF or 42nF, as the meter shows it.");
}

TEST_CASE("an amended distance is judged as things stood when it was measured") {
    State later = safe_with({});
    later.last = 9;
    later.entered = {7};
    const Distance measured = distance("distance capacitance M1:3 T1:1 42pF 156pF");
    later.distances.push_back({7, measured, {.apart = {"M1", "T1"}, .battery_off = true}});
    const Event event = parse("amend 7 distance capacitance M1:3 T1:1 52pF 156pF", later);
    const auto& amend = std::get<Amend>(event.body);
    CHECK(std::get<Distance>(amend.event->body).first == Approx(52e-12));
    CHECK(refusal("distance capacitance M1:3 T1:1 52pF 156pF", later).id == "event-not-possible");
}
