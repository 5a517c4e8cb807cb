// Entries as people type them.
#include "halfsplit/job/words.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/read.hpp"

#include "support/catch.hpp"
#include "support/random_event.hpp"
#include "support/small_chain.hpp"

#include <cmath>
#include <limits>

using namespace halfsplit;
using namespace halfsplit::job;
using test::small_chain;

namespace {

using Words = std::vector<std::string>;

constexpr double infinity = std::numeric_limits<double>::infinity();

State fresh() {
    State state;
    state.opened.network = "main";
    state.last = 1;
    return state;
}

const Expectation no_expectation{};
const Expectation at_x1{"X1.a:4", "DS:6", "X1"};

Event parse(const std::string& words, const Expectation& expectation = no_expectation,
            const State& state = fresh()) {
    return parse_event(split_words(words), small_chain(), state, expectation);
}

template <typename Kind>
Kind parse_as(const std::string& words, const Expectation& expectation = no_expectation,
              const State& state = fresh()) {
    return std::get<Kind>(parse(words, expectation, state).body);
}

Finding refusal(const Words& words, const Expectation& expectation = no_expectation,
                const State& state = fresh()) {
    try {
        (void)parse_event(words, small_chain(), state, expectation);
    } catch (const InputError& error) {
        REQUIRE(error.findings().size() == 1);
        return error.findings().front();
    }
    FAIL("accepted: " << join(words, " "));
    throw std::logic_error("not reached");
}

Finding refusal(const std::string& words, const Expectation& expectation = no_expectation,
                const State& state = fresh()) {
    return refusal(split_words(words), expectation, state);
}

Reading ohms(const std::string& red, const std::string& black, double value) {
    return {red, black, Quantity::Ohm, Outcome::Value, value, false};
}

}  // namespace

TEST_CASE("a bare value is the awaited reading") {
    CHECK(parse_as<Reading>("0.4", at_x1) == ohms("X1.a:4", "DS:6", 0.4));
    CHECK(parse_as<Reading>("3.1k", at_x1) == ohms("X1.a:4", "DS:6", 3100));
    CHECK(parse_as<Reading>("120 ohm", at_x1) == ohms("X1.a:4", "DS:6", 120));
    CHECK(parse_as<Reading>("OL", at_x1) == ohms("X1.a:4", "DS:6", infinity));
    CHECK(parse_as<Reading>("2.5V", at_x1) ==
          Reading{"X1.a:4", "DS:6", Quantity::Volt, Outcome::Value, 2.5, false});
    CHECK(parse_as<Reading>("2.5 volts", at_x1).quantity == Quantity::Volt);
    CHECK(parse_as<Reading>("-0.2V", at_x1).value == -0.2);
}

TEST_CASE("one key is enough for what is not a figure") {
    CHECK(parse_as<Reading>("o", at_x1).outcome == Outcome::Open);
    CHECK(parse_as<Reading>("c", at_x1).outcome == Outcome::Closed);
    CHECK(parse_as<Reading>("?", at_x1).outcome == Outcome::NotSure);
    CHECK(parse_as<Reading>("-", at_x1).outcome == Outcome::CouldNotReach);
    CHECK(parse_as<Reading>("C moved", at_x1) ==
          Reading{"X1.a:4", "DS:6", Quantity::Ohm, Outcome::Closed, 0, true});
}

TEST_CASE("a reading says where both leads were") {
    CHECK(parse_as<Reading>("reading X1.a:4 DS:6 0.4") == ohms("X1.a:4", "DS:6", 0.4));
    CHECK(parse_as<Reading>("reading X1.a:4 X1.a:5 60.2 moved").moved);
    CHECK(parse_as<Reading>("reading X1.a:4 ground OL") == ohms("X1.a:4", "ground", infinity));
    CHECK(parse_as<Reading>("reading Supply X1.a:4 12k") == ohms("supply", "X1.a:4", 12'000));
    CHECK(parse_as<Reading>("reading x1.A:4 ds:6 closed") ==
          Reading{"X1.a:4", "DS:6", Quantity::Ohm, Outcome::Closed, 0, false});
}

TEST_CASE("clip stands for the clip's terminal on the same line") {
    CHECK(parse_as<Reading>("reading X1.a:4 clip 1").black == "DS:6");
    CHECK(parse_as<Reading>("reading X1.a:5 clip 1").black == "DS:14");
    CHECK(parse_as<Reading>("reading clip X1.a:5 1").red == "DS:14");
    State moved = fresh();
    moved.clip = "X2.a:1/2";
    CHECK(parse_as<Reading>("reading X1.a:5 clip 1", no_expectation, moved).black == "X2.a:2");
    CHECK(refusal("reading ground clip 1").id == "event-not-possible");
    CHECK(refusal("reading DS:6 clip 1").message == "both leads are on DS:6");
}

TEST_CASE("figures that no meter shows are refused in words") {
    CHECK(refusal("-3", at_x1).message ==
          "'-3' is below zero: ohms cannot be, unless something still feeds the bus");
    CHECK(refusal("nan", at_x1).message == "'nan' is no figure a meter shows");
    CHECK(refusal("2000M", at_x1).message == "2 Gohm is more than a meter can show");
    CHECK(parse_as<Reading>("1000M", at_x1).value == 1e9);
    CHECK(refusal("3,1", at_x1).next_step == "Write 3.1 or 3100.");
    CHECK(refusal("4m", at_x1).message == "'4m' has a small m, which may stand for milli or for mega");
    CHECK(refusal("1e12", at_x1).message == "'1e12' has an exponent, which no meter shows");
    CHECK(refusal("reading X1.a:4 DS:6 much").message == "'much' is not a value");
    for (const char* word : {"-3", "nan", "inf", "2000M", "3,1", "4m", "1e3", "0x10", "12..5", "9Z"}) {
        INFO(word);
        CHECK(refusal(word, at_x1).id == "event-value");
    }
}

TEST_CASE("voltages beyond a low-voltage vehicle are refused with a warning") {
    CHECK(parse_as<Reading>("60V", at_x1).value == 60);
    for (const char* word : {"60.1V", "400 V", "-400V"}) {
        const Finding finding = refusal(word, at_x1);
        CHECK(finding.id == "event-high-voltage");
        CHECK(finding.next_step.find("qualified people only") != std::string::npos);
    }
}

TEST_CASE("where volts are awaited a bare figure is volts, and what belongs to ohms is refused") {
    Expectation volts = at_x1;
    volts.black = "ground";
    volts.quantity = Quantity::Volt;
    CHECK(parse_as<Reading>("2.5", volts) ==
          Reading{"X1.a:4", "ground", Quantity::Volt, Outcome::Value, 2.5, false});
    CHECK(parse_as<Reading>("-0.05", volts).value == -0.05);
    CHECK(parse_as<Reading>("12.4 V", volts).value == 12.4);
    CHECK(parse_as<Reading>("?", volts).outcome == Outcome::NotSure);
    CHECK(parse_as<Reading>("?", volts).quantity == Quantity::Volt);
    CHECK(parse_as<Reading>("-", volts).outcome == Outcome::CouldNotReach);
    for (const char* word : {"o", "c", "OL", "2,5"}) {
        INFO(word);
        CHECK(refusal(word, volts).id == "event-value");
    }
    CHECK(refusal("99", volts).id == "event-high-voltage");
    // Whoever names the unit means it.
    CHECK(parse_as<Reading>("60 ohm", volts).quantity == Quantity::Ohm);
}

TEST_CASE("volts are refused while the job says that the battery is off, unless they were asked for") {
    State dead = fresh();
    dead.safe_state = SafeState{true, true, true, 10};
    dead.safe_state_at = 2;
    const Finding finding = refusal("reading X1.a:4 ground 2.5V", no_expectation, dead);
    CHECK(finding.id == "event-dead-bus");
    CHECK(finding.next_step.find("safe ignition=on bus=awake battery=on") != std::string::npos);
    CHECK(refusal("2.5V", at_x1, dead).id == "event-dead-bus");
    CHECK(parse_as<Reading>("0.4", at_x1, dead).value == 0.4);
    Expectation volts{"X1.a:4", "ground", ""};
    volts.quantity = Quantity::Volt;
    CHECK(parse_as<Reading>("2.5", volts, dead).value == 2.5);
    CHECK(parse_as<Reading>("reading X1.a:4 ground 2.5V", volts, dead).value == 2.5);
    CHECK(refusal("reading X1.a:5 ground 2.5V", volts, dead).id == "event-dead-bus");
    // A scan since then had the bus awake.
    dead.scans.push_back({3, {}, {}});
    CHECK(parse_as<Reading>("reading X1.a:4 ground 2.5V", no_expectation, dead).value == 2.5);
}

TEST_CASE("ohms are refused while the job says that the battery is connected") {
    State live = fresh();
    live.safe_state = SafeState{true, true, false, 0};
    for (const char* word : {"0.4", "OL", "c", "o"}) CHECK(refusal(word, at_x1, live).id == "event-live-bus");
    CHECK(parse_as<Reading>("2.5V", at_x1, live).value == 2.5);
    CHECK(parse_as<Reading>("-", at_x1, live).outcome == Outcome::CouldNotReach);
    live.safe_state->battery_off = true;
    CHECK(parse_as<Reading>("0.4", at_x1, live).value == 0.4);
}

TEST_CASE("a bare value or verdict that nobody asked for says what to type") {
    const Finding value = refusal("0.4");
    CHECK(value.id == "event-nothing-awaited");
    CHECK(value.next_step.find("reading ") != std::string::npos);
    CHECK(value.next_step.find(" clip 0.4") != std::string::npos);
    CHECK_NOTHROW(parse(value.next_step.substr(value.next_step.find("reading"))));
    CHECK(refusal("faulty").id == "event-nothing-awaited");
}

TEST_CASE("closed and open by themselves are asked back, for they could mean two things") {
    CHECK(refusal("closed", at_x1).next_step == "Type c for a beep, or close to end the job.");
    CHECK(refusal("open", at_x1).next_step == "Type o for no beep, or OL for ohms over the range.");
}

TEST_CASE("an unknown name is told with its column and the nearest one") {
    const Finding terminal = refusal("reading X1.a:9 DS:6 0.4");
    CHECK(terminal.id == "event-name-unknown");
    CHECK(terminal.location.file == "input");
    CHECK(terminal.location.line == 1);
    CHECK(terminal.location.column == 9);
    CHECK(terminal.source_line == "reading X1.a:9 DS:6 0.4");
    CHECK_FALSE(terminal.nearest.empty());
    CHECK(refusal("seen M9 faulty").nearest == "M1");
    CHECK(refusal("seen X1.a:4 faulty").nearest == "X1");
    CHECK(refusal("cover off kik").nearest == "kick");
    CHECK(refusal("clip X1.a:4/6").nearest == "X1.a:4/5");
    CHECK(refusal("answers M1,GX").nearest == "GW");
    CHECK(refusal("raeding X1.a:4 DS:6 1").nearest == "reading");
}

TEST_CASE("columns count characters where an entry has words of several bytes") {
    CHECK(refusal(Words{"verified", "hl=60", "t\xC3\xBCr=auf"}).location.column == 16);
    CHECK(refusal(Words{"seen", "t\xC3\xBCr", "faulty"}).location.column == 6);
    CHECK(refusal(Words{"remark", "\xFF"}).id == "event-value");
}

TEST_CASE("an entry pasted by mistake is told in a line or two") {
    const std::string paste(9000, 'x');
    const Finding first = refusal(Words{paste});
    CHECK(first.id == "event-word-unknown");
    CHECK(first.message.size() < 200);
    CHECK(first.source_line.size() < 200);
    const Finding later = refusal(Words{"cover", "off", "kick", paste});
    CHECK(later.location.column == 16);
    CHECK(later.source_line.size() < 200);
    CHECK(later.message.size() < 200);
}

TEST_CASE("missing and surplus words are told where they would stand") {
    CHECK(refusal(Words{}).id == "event-word-missing");
    CHECK(refusal("reading X1.a:4").location.column == 16);
    for (const char* entry :
         {"reading", "reading X1.a:4 DS:6", "intake", "safe", "answers", "answers M1 silent", "silent",
          "seen", "seen X1", "cover", "cover off", "unplugged", "plugged", "clip", "repair", "repair X1",
          "verified", "remark", "amend"}) {
        INFO(entry);
        CHECK(refusal(entry).id == "event-word-missing");
    }
    for (const char* entry :
         {"reading X1.a:4 DS:6 0.4 now", "answers all M1", "cover off kick now", "unplugged X1 now",
          "clip X1.a:4/5 now", "pause now", "resume now", "close now"}) {
        INFO(entry);
        CHECK(refusal(entry).id == "event-word-extra");
    }
}

TEST_CASE("an intake takes values of many words and adds to what is known") {
    const Intake intake = parse_as<Intake>(
        "intake complaint=no crank when wet conditions=wet, comes and goes replaced=M1,lift module");
    CHECK(intake == Intake{"no crank when wet", "", {"wet", "comes and goes"}, {"M1", "lift module"}});
    State state = fresh();
    state.intake = intake;
    const Intake more = parse_as<Intake>("intake recent=step light added", no_expectation, state);
    CHECK(more.complaint == "no crank when wet");
    CHECK(more.recent_work == "step light added");
    CHECK(parse_as<Intake>("intake conditions=", no_expectation, state).conditions.empty());
    CHECK(std::get<Intake>(parse_event({"intake", "complaint=no crank"}, small_chain(), fresh(), {}).body)
              .complaint == "no crank");
    CHECK(refusal("intake complaint=x conditons=wet").nearest == "conditions");
    CHECK(refusal("intake wet").id == "event-word-unknown");
}

TEST_CASE("the safe state is said piece by piece") {
    CHECK(parse_as<SafeState>("safe ignition=off bus=asleep battery=off waited=10") ==
          SafeState{true, true, true, 10});
    State state = fresh();
    state.safe_state = SafeState{true, true, true, 10};
    CHECK(parse_as<SafeState>("safe battery=on", no_expectation, state) == SafeState{true, true, false, 10});
    CHECK(refusal("safe battery=of").nearest == "off");
    CHECK(refusal("safe waited=-1").id == "event-value");
    CHECK(refusal("safe waited=ten").id == "event-value");
}

TEST_CASE("either list of modules may be left out") {
    // M2 is an option that is not fitted: nobody waits for its answer.
    CHECK(parse_as<Answers>("answers all") == Answers{{"GW", "M1"}, {}});
    CHECK(parse_as<Answers>("answers none") == Answers{{}, {"GW", "M1"}});
    CHECK(parse_as<Answers>("answers GW") == Answers{{"GW"}, {"M1"}});
    CHECK(parse_as<Answers>("answers silent M1") == Answers{{"GW"}, {"M1"}});
    CHECK(parse_as<Answers>("silent m1") == Answers{{"GW"}, {"M1"}});
    CHECK(parse_as<Answers>("answers GW silent M1") == Answers{{"GW"}, {"M1"}});
    CHECK(parse_as<Answers>("answers GW, M1") == Answers{{"GW", "M1"}, {}});
    CHECK(parse_as<Answers>("answers all silent M1") == Answers{{"GW"}, {"M1"}});
    CHECK(refusal("answers GW silent GW").id == "event-not-possible");
}

TEST_CASE("a look names the part, or is of the awaited one") {
    CHECK(parse_as<Seen>("seen X1 faulty green pin 4") == Seen{"X1", Verdict::Faulty, "green pin 4"});
    CHECK(parse_as<Seen>("sound", at_x1) == Seen{"X1", Verdict::Sound, ""});
    CHECK(parse_as<Seen>("unsure dark in there", at_x1) == Seen{"X1", Verdict::NotSure, "dark in there"});
    CHECK(refusal("seen X1 fawlty").nearest == "faulty");
}

TEST_CASE("covers, plugs and the clip") {
    CHECK(parse_as<CoverChange>("cover off kick") == CoverChange{"kick", true, false});
    CHECK(parse_as<CoverChange>("cover on Kick") == CoverChange{"kick", false, false});
    CHECK(parse_as<PlugChange>("unplugged X1") == PlugChange{"X1", false, false});
    CHECK(parse_as<PlugChange>("plugged m1") == PlugChange{"M1", true, false});
    CHECK(parse_as<ClipMoved>("clip X2.a:1/2").point == "X2.a:1/2");
    CHECK(parse_as<ClipMoved>("clip X2.a:2").point == "X2.a:1/2");
    CHECK(refusal("unplugged S1").message == "S1 is a splice, which has no plug");
    CHECK(refusal("unplugged W3").id == "event-not-possible");
    CHECK(refusal("cover of kick").nearest == "off");
}

TEST_CASE("a repair says what was done to which part") {
    CHECK(parse_as<Repair>("repair X1 cleaned with contact spray") ==
          Repair{"X1", RepairAction::Cleaned, "with contact spray"});
    CHECK(parse_as<Repair>("repair BP1 bridged").action == RepairAction::BridgePlugFitted);
    CHECK(refusal("repair M2 bridged").nearest == "BP1");
    CHECK(refusal("repair X1 resated").nearest == "reseated");
}

TEST_CASE("a proof of the repair is added to piece by piece") {
    CHECK(parse_as<Verified>("verified hl=60.2 answers=all codes=clear complaint=gone") ==
          Verified{60.2, true, true, true});
    State state = fresh();
    state.verified = Verified{60.2, {}, {}, {}};
    CHECK(parse_as<Verified>("verified complaint=back", no_expectation, state) ==
          Verified{60.2, {}, {}, false});
    CHECK(refusal("verified hl=-1").id == "event-value");
}

TEST_CASE("minutes at the end belong to any entry") {
    CHECK(parse("remark lunch minutes=0").minutes == 0.0);
    CHECK(parse("0.4 minutes=7.5", at_x1).minutes == 7.5);
    CHECK(parse("intake complaint=no crank minutes=3").minutes == 3.0);
    CHECK_FALSE(parse("remark minutes=5 wasted").minutes);
    for (const char* entry :
         {"pause minutes=", "pause minutes=-1", "pause minutes=ten", "pause minutes=100000"}) {
        INFO(entry);
        CHECK(refusal(entry).location.column == 7);
    }
}

TEST_CASE("undo takes the last entry, or the record that is named") {
    State state = fresh();
    CHECK(refusal("undo", no_expectation, state).message == "there is nothing to undo");
    state.last = 9;
    state.entered = {2, 5, 8};
    state.undone = {3};
    CHECK(parse_as<Undo>("undo", no_expectation, state).target == 8);
    CHECK(parse_as<Undo>("undo 4", no_expectation, state).target == 4);
    CHECK(refusal("undo 1", no_expectation, state).id == "event-not-possible");
    CHECK(refusal("undo 3", no_expectation, state).message == "record 3 is undone already");
    for (const char* entry :
         {"undo 0", "undo 10", "undo x", "undo 2.5", "undo -2", "undo 99999999999999999999999"})
        CHECK(refusal(entry, no_expectation, state).id == "event-value");
}

TEST_CASE("amend puts another entry in place, for the same reading or part when it is bare") {
    State state = fresh();
    state.last = 9;
    state.entered = {2, 3, 5};
    state.readings = {{2, 0, ohms("X1.a:4", "DS:6", 240), {.battery_off = true, .bus_asleep = true}}};
    state.seen = {{3, {"X1", Verdict::Faulty, ""}, 0}};
    const auto amended = [&](const std::string& words) {
        const Amend amend = parse_as<Amend>(words, no_expectation, state);
        REQUIRE(amend.event);
        return *amend.event;
    };
    CHECK(amended("amend 2 0.4") == Event{ohms("X1.a:4", "DS:6", 0.4), {}});
    CHECK(amended("amend 3 sound") == Event{Seen{"X1", Verdict::Sound, ""}, {}});
    CHECK(amended("amend 2 reading X2.a:1 clip OL minutes=4") == Event{ohms("X2.a:1", "DS:6", infinity), 4});
    CHECK_FALSE(parse("amend 2 0.4 minutes=4", no_expectation, state).minutes);
    CHECK(refusal("amend 5 0.4", no_expectation, state).id == "event-nothing-awaited");
    CHECK(refusal("amend 4 0.4", no_expectation, state).id == "event-not-possible");
    CHECK(refusal("amend 2 undo 3", no_expectation, state).id == "event-not-possible");
    CHECK(refusal("amend 2 amend 3 sound", no_expectation, state).id == "event-not-possible");
    CHECK(refusal("amend 2", no_expectation, state).id == "event-word-missing");
    // The battery is on again by now, but the reading was taken while it was off.
    state.safe_state = SafeState{true, true, false, 0};
    CHECK(amended("amend 2 0.4") == Event{ohms("X1.a:4", "DS:6", 0.4), {}});
}

TEST_CASE("every first word that is offered is understood") {
    State state = fresh();
    for (const std::string& word : event_words()) {
        INFO(word);
        try {
            (void)parse(word, at_x1, state);
        } catch (const InputError& error) {
            CHECK(error.findings().front().id != "event-word-unknown");
        }
    }
    CHECK(event_words().size() == 26);
}

TEST_CASE("events are told in plain words") {
    const auto told = [](const Body& body) { return in_words({body, {}}, small_chain()); };
    CHECK(told(ohms("X1.a:4", "DS:6", 240)) ==
          "Line BUS-H, X1.a cavity 4 (yellow with a black stripe) to DS cavity 6: 240 ohm.");
    CHECK(told(Reading{"X1.b:5", "DS:14", Quantity::Ohm, Outcome::Closed, 0, true}) ==
          "Line BUS-L, X1.b cavity 5 (yellow with a brown stripe) to DS cavity 14: closed (beep), while the "
          "loom was "
          "moved.");
    CHECK(told(ohms("X1.a:4", "X1.a:5", 60.2)) ==
          "Line BUS-H, X1.a cavity 4 (yellow with a black stripe) to line BUS-L, X1.a cavity 5 (yellow with "
          "a brown "
          "stripe): 60.2 ohm.");
    CHECK(told(ohms("X1.a:4", "ground", infinity)) ==
          "Line BUS-H, X1.a cavity 4 (yellow with a black stripe) to ground: OL (over the range: open).");
    CHECK(told(Reading{"supply", "S1:L", Quantity::Volt, Outcome::Value, 2.5, false}) ==
          "Line BUS-L, splice S1 (yellow with a brown stripe) from supply: 2.5 V.");
    CHECK(told(Intake{"no crank", "step light", {"wet"}, {"M1"}}) ==
          "Complaint: no crank. It happens when: wet. Recent work: step light. Replaced before: M1.");
    CHECK(told(SafeState{true, true, true, 10}) == "Ignition off, bus asleep, battery off, waited 10 min.");
    CHECK(told(Answers{{"GW"}, {}}) == "Answering: GW. Silent: none.");
    CHECK(told(Seen{"X1", Verdict::Faulty, "green pin"}) ==
          "Looked at X1 (dash to floor): faulty, green pin.");
    CHECK(told(CoverChange{"kick", true, true}) == "Kick panel is off (it had to be; say so if it was not).");
    CHECK(told(PlugChange{"X1", false, false}) == "X1 (dash to floor) is unplugged.");
    CHECK(told(ClipMoved{"DS:6/14"}) == "The clip is at DS:6/14.");
    CHECK(told(Repair{"X1", RepairAction::Cleaned, "spray"}) == "X1 (dash to floor) cleaned: spray.");
    CHECK(told(Verified{60.2, true, {}, false}) ==
          "Proof of the repair: H to L 60.2 ohm, all modules answer, the complaint is back.");
    CHECK(told(Undo{7}) == "Record 7 undone.");
    CHECK(told(Amend{7, std::make_shared<const Event>(Event{Remark{"dry"}, 3})}) ==
          "Record 7 now says: Remark: dry. Minutes entered: 3 min.");
    CHECK(in_words({Remark{"wet"}, 7}, small_chain()) == "Remark: wet. Minutes entered: 7 min.");
}

TEST_CASE("names that the harness does not know stand as they are") {
    const auto told = [](const Body& body) { return in_words({body, {}}, small_chain()); };
    CHECK(told(ohms("Q9:1", "Q9:2", 1)) == "Q9:1 to Q9:2: 1 ohm.");
    CHECK(told(ohms("Q9:1", "DS:6", 1)).find("DS cavity 6") != std::string::npos);
    CHECK(told(Seen{"Q9", Verdict::Sound, ""}) == "Looked at Q9: sound.");
}

TEST_CASE("whatever an event holds, it is told in one line without control characters") {
    test::RandomEvents events(8);
    for (int i = 0; i < 2000; ++i) {
        const std::string text = in_words(events.any(), small_chain());
        CHECK(valid_utf8(text));
        for (const char c : text) CHECK((static_cast<unsigned char>(c) >= 0x20 && c != 0x7f));
    }
}

TEST_CASE("any words at all are understood or refused with a place, a reason and a next step") {
    std::mt19937_64 random(9);
    Words pool = event_words();
    pool.insert(pool.end(), {"0.4",         "OL",          "-",     "?",         "c",     "2.5V",
                             "X1.a:4",      "DS:6",        "clip",  "ground",    "X1",    "M1",
                             "kick",        "X1.a:4/5",    "off",   "on",        "all",   "silent",
                             "complaint=x", "battery=off", "hl=60", "minutes=3", "moved", "faulty",
                             "reseated",    "2",           "3",     "",          " ",     "t\xC3\xBCr",
                             "\xFF",        "=",           ","});
    State state = fresh();
    state.last = 5;
    state.entered = {2, 3};
    std::size_t understood = 0;
    for (int i = 0; i < 20'000; ++i) {
        Words words(random() % 6);
        for (std::string& word : words) word = pool[random() % pool.size()];
        try {
            (void)parse_event(words, small_chain(), state, i % 2 == 0 ? at_x1 : no_expectation);
            ++understood;
        } catch (const InputError& error) {
            const Finding& finding = error.findings().front();
            REQUIRE(finding.location.line == 1);
            REQUIRE(finding.location.column >= 1);
            REQUIRE_FALSE(finding.message.empty());
            REQUIRE_FALSE(finding.next_step.empty());
        }
    }
    CHECK(understood > 200);
}
