// Where a job stands after its records: undo, amend, circuit states, advice, minutes.
#include "halfsplit/job/state.hpp"

#include "halfsplit/base/digest.hpp"

#include "support/catch.hpp"
#include "support/random_event.hpp"

using namespace halfsplit;
using namespace halfsplit::job;

namespace {

using Names = std::vector<std::string>;

// Records as a log would number them, a minute apart unless said otherwise.
class Job {
  public:
    Job() { add(Opened{"van.json", "{}", sha256("{}"), "main", "0.1.0"}); }

    Sequence add(Body body, double minutes_later = 1, std::optional<double> entered = {}) {
        time_ += static_cast<UnixSeconds>(60 * minutes_later);
        records_.push_back({records_.size() + 1, time_, {std::move(body), entered}});
        return records_.size();
    }
    Sequence implied_cover(const std::string& cover) { return add(CoverChange{cover, true, true}, 0); }
    Sequence amend(Sequence target, Body body, std::optional<double> entered = {}) {
        return add(Amend{target, std::make_shared<const Event>(Event{std::move(body), entered})});
    }
    Sequence undo(Sequence target) { return add(Undo{target}); }

    const std::vector<Record>& records() const { return records_; }
    State state() const { return replay(records_); }

  private:
    UnixSeconds time_ = 1'772'351'100;
    std::vector<Record> records_;
};

Reading ohms(const std::string& red, double value) {
    return {red, "DS:6", Quantity::Ohm, Outcome::Value, value, false};
}

SafeState dead_bus() {
    return {true, true, true, 10};
}

std::vector<double> values(const State& state) {
    std::vector<double> all;
    for (const TakenReading& taken : state.readings) all.push_back(taken.reading.value);
    return all;
}

}  // namespace

TEST_CASE("a job that was only opened knows its harness and nothing else") {
    Job job;
    const State state = job.state();
    CHECK(state.opened.harness_file == "van.json");
    CHECK(state.last == 1);
    CHECK(state.minutes_spent == 0);
    CHECK(state.entered.empty());
    CHECK(problems(job.records()).empty());
    CHECK_FALSE(last_undoable(job.records()));
}

TEST_CASE("no records at all are a state of nothing, and told as a problem") {
    CHECK(replay({}).last == 0);
    CHECK(problems({}) == Names{"The job is empty: its first record should open it on a harness."});
}

TEST_CASE("a reading belongs to the circuit it was taken in") {
    Job job;
    job.add(ohms("X1.a:4", 0.1));
    job.add(dead_bus());
    job.add(PlugChange{"X3", false, false});
    job.add(PlugChange{"M1", false, false});
    job.add(ohms("X2.a:4", 0.2));
    job.add(PlugChange{"X3", true, false});
    job.add(Repair{"X3", RepairAction::Cleaned, ""});
    job.add(ohms("X3.a:4", 0.3));
    const State state = job.state();
    REQUIRE(state.readings.size() == 3);
    CHECK(state.readings[0].state == CircuitState{});
    CHECK(state.readings[1].state ==
          CircuitState{.apart = {"M1", "X3"}, .battery_off = true, .bus_asleep = true});
    CHECK(state.readings[2].state ==
          CircuitState{
              .apart = {"M1"}, .reseated = {"X3"}, .repairs = 1, .battery_off = true, .bus_asleep = true});
    CHECK(state.apart == Names{"M1"});
}

TEST_CASE("scans and looks keep the state they were made in") {
    Job job;
    job.add(Answers{{"GW"}, {"M1"}});
    job.add(Seen{"X3", Verdict::Sound, ""});
    job.add(Repair{"X3", RepairAction::Reseated, ""});
    job.add(Answers{{"GW", "M1"}, {}});
    job.add(Seen{"X3", Verdict::Faulty, "green"});
    const State state = job.state();
    REQUIRE(state.scans.size() == 2);
    CHECK(state.scans[0].state.repairs == 0);
    CHECK(state.scans[1].state.repairs == 1);
    REQUIRE(state.seen.size() == 2);
    CHECK(state.seen[0].repairs == 0);
    CHECK(state.seen[1].repairs == 1);
    CHECK(state.seen[1].seen.what == "green");
}

TEST_CASE("an undone record no longer counts, and undoing the undo brings it back") {
    Job job;
    const Sequence reading = job.add(ohms("X1.a:4", 0.1));
    const Sequence undo = job.undo(reading);
    CHECK(job.state().readings.empty());
    CHECK(job.state().undone == std::set<Sequence>{reading});
    job.undo(undo);
    CHECK(values(job.state()) == std::vector<double>{0.1});
    CHECK(job.state().undone == std::set<Sequence>{undo});
    CHECK(problems(job.records()).empty());
}

TEST_CASE("undoing an unplugging changes the circuit of every later reading") {
    Job job;
    const Sequence unplugged = job.add(PlugChange{"X3", false, false});
    job.add(ohms("X1.a:4", 0.1));
    CHECK(job.state().readings[0].state.apart == Names{"X3"});
    job.undo(unplugged);
    CHECK(job.state().readings[0].state.apart.empty());
}

TEST_CASE("what a record implied goes with it and comes back with it") {
    Job job;
    job.add(CoverChange{"kick", true, false});
    const Sequence reading = job.add(ohms("X2.a:4", 0.1));
    const Sequence seat = job.implied_cover("seat");
    const Sequence trim = job.implied_cover("trim");
    job.add(Remark{"wet"});
    CHECK(job.state().covers_off == Names{"kick", "seat", "trim"});
    const Sequence undo = job.undo(reading);
    CHECK(job.state().covers_off == Names{"kick"});
    CHECK(job.state().undone == std::set<Sequence>{reading, seat, trim});
    job.undo(undo);
    CHECK(job.state().covers_off == Names{"kick", "seat", "trim"});
}

TEST_CASE("an implied record can be undone by itself, or corrected") {
    Job job;
    job.add(ohms("X2.a:4", 0.1));
    const Sequence seat = job.implied_cover("seat");
    job.implied_cover("trim");
    job.undo(seat);
    CHECK(job.state().covers_off == Names{"trim"});
    CHECK(job.state().readings.size() == 1);
    job.add(CoverChange{"trim", false, false});
    CHECK(job.state().covers_off.empty());
}

TEST_CASE("an amended reading keeps its time, its place and its circuit") {
    Job job;
    const Sequence first = job.add(ohms("X1.a:4", 240));
    job.implied_cover("kick");
    job.add(PlugChange{"X3", false, false});
    job.add(ohms("X2.a:4", 0.2));
    const UnixSeconds time = job.records()[first - 1].time;
    job.amend(first, ohms("X1.a:4", 0.24));
    State state = job.state();
    CHECK(values(state) == std::vector<double>{0.24, 0.2});
    CHECK(state.readings[0].sequence == first);
    CHECK(state.readings[0].time == time);
    CHECK(state.readings[0].state.apart.empty());
    CHECK(state.covers_off == Names{"kick"});  // the same place, so what it implied still holds
}

TEST_CASE("a reading amended to another place loses what it implied there") {
    Job job;
    const Sequence reading = job.add(ohms("X1.a:4", 240));
    const Sequence kick = job.implied_cover("kick");
    const Sequence amend = job.amend(reading, ohms("X2.a:4", 240));
    job.implied_cover("seat");
    CHECK(job.state().covers_off == Names{"seat"});
    CHECK(job.state().undone == std::set<Sequence>{kick});
    job.undo(amend);
    CHECK(job.state().covers_off == Names{"kick"});
    CHECK(job.state().readings[0].reading.red == "X1.a:4");
}

TEST_CASE("a clip amended to the same point keeps what it implied, to another one loses it") {
    Job job;
    const Sequence clip = job.add(ClipMoved{"X1.a"});
    job.implied_cover("kick");
    job.amend(clip, ClipMoved{"X1.a"}, 5);
    CHECK(job.state().covers_off == Names{"kick"});
    job.amend(clip, ClipMoved{"X2.a"});
    CHECK(job.state().covers_off.empty());
}

TEST_CASE("the newest amend counts, an amend of an amend means the same record") {
    Job job;
    const Sequence reading = job.add(ohms("X1.a:4", 1));
    const Sequence second = job.amend(reading, ohms("X1.a:4", 2));
    const Sequence third = job.amend(second, ohms("X1.a:4", 3));
    CHECK(values(job.state()) == std::vector<double>{3});
    job.undo(third);
    CHECK(values(job.state()) == std::vector<double>{2});
    job.undo(second);
    CHECK(values(job.state()) == std::vector<double>{1});
    CHECK(problems(job.records()).empty());
}

TEST_CASE("undoing an amended record undoes what stands in its place") {
    Job job;
    const Sequence reading = job.add(ohms("X1.a:4", 1));
    job.amend(reading, ohms("X1.a:4", 2));
    job.undo(reading);
    CHECK(job.state().readings.empty());
}

TEST_CASE("a repair makes an earlier proof stale") {
    Job job;
    job.add(Verified{60.2, true, {}, {}});
    const Sequence proof = 2;
    CHECK(job.state().verified_at == proof);
    job.add(Repair{"X3", RepairAction::Replaced, ""});
    CHECK_FALSE(job.state().verified);
    CHECK_FALSE(job.state().verified_at);
    job.add(Verified{60.1, {}, {}, true});
    CHECK(job.state().verified == Verified{60.1, {}, {}, true});
}

TEST_CASE("covers and plugs are lists without repetition, in the order of the work") {
    Job job;
    job.add(CoverChange{"seat", true, false});
    job.add(CoverChange{"kick", true, false});
    job.add(CoverChange{"seat", true, false});
    job.add(CoverChange{"trim", false, false});
    job.add(PlugChange{"X3", false, false});
    job.add(PlugChange{"X3", false, false});
    CHECK(job.state().covers_off == Names{"seat", "kick"});
    CHECK(job.state().apart == Names{"X3"});
    job.add(CoverChange{"seat", false, false});
    CHECK(job.state().covers_off == Names{"kick"});
}

TEST_CASE("advice stays valid through remarks, pauses and later advice") {
    Job job;
    job.add(Recommended{"{1}"});
    job.add(Remark{"coffee"});
    job.add(Paused{});
    job.add(Resumed{});
    CHECK(job.state().recommended == Recommended{"{1}"});
    job.add(Recommended{"{2}"});
    CHECK(job.state().recommended == Recommended{"{2}"});
}

TEST_CASE("whatever changes the evidence makes the advice stale") {
    for (const Body& body : {Body{Intake{}}, Body{SafeState{}}, Body{Answers{}}, Body{ohms("X1.a:4", 1)},
                             Body{Seen{}}, Body{CoverChange{}}, Body{PlugChange{}}, Body{ClipMoved{}},
                             Body{Repair{}}, Body{Verified{}}, Body{Closed{}}}) {
        Job job;
        job.add(Recommended{"{}"});
        job.add(body);
        INFO(kind(job.records().back().event));
        CHECK_FALSE(job.state().recommended);
    }
}

TEST_CASE("correcting what came before the advice makes it stale, what came after does not") {
    Job job;
    const Sequence before = job.add(ohms("X1.a:4", 1));
    const Sequence note = job.add(Remark{"wet"});
    job.add(Recommended{"{}"});
    const Sequence after = job.add(ohms("X2.a:4", 1));
    CHECK_FALSE(job.state().recommended);
    job.undo(after);
    CHECK(job.state().recommended);  // as it was when the advice was given
    job.undo(note);
    CHECK(job.state().recommended);
    SECTION("an undo") {
        const Sequence undo = job.undo(before);
        CHECK_FALSE(job.state().recommended);
        job.undo(undo);
        CHECK(job.state().recommended);
    }
    SECTION("an amend") {
        job.amend(before, ohms("X1.a:4", 2));
        CHECK_FALSE(job.state().recommended);
    }
    SECTION("an amend of a remark into a reading") {
        Job other;
        const Sequence words = other.add(Remark{"0.4"});
        other.add(Recommended{"{}"});
        other.amend(words, Remark{"wet"});
        CHECK(other.state().recommended);
        other.amend(words, ohms("X1.a:4", 0.4));
        CHECK_FALSE(other.state().recommended);
    }
}

TEST_CASE("undone advice gives way to the advice before it") {
    Job job;
    job.add(Recommended{"{1}"});
    const Sequence second = job.add(Recommended{"{2}"});
    job.undo(second);
    CHECK(job.state().recommended == Recommended{"{1}"});
}

TEST_CASE("minutes are the clock's from record to record") {
    Job job;
    job.add(Remark{"a"}, 5);
    job.add(Remark{"b"}, 2.5);
    CHECK(job.state().minutes_spent == Approx(7.5));
}

TEST_CASE("entered minutes stand in place of the clock's") {
    Job job;
    job.add(Remark{"a"}, 5);
    const Sequence long_one = job.add(Remark{"written up in the evening"}, 300, 12);
    job.add(Remark{"b"}, 3);
    CHECK(job.state().minutes_spent == Approx(5 + 12 + 3));
    SECTION("an amend brings its own") {
        job.amend(long_one, Remark{"c"}, 20);
        CHECK(job.state().minutes_spent == Approx(5 + 20 + 3 + 1));
    }
    SECTION("an amend without minutes leaves them") {
        job.amend(long_one, Remark{"c"});
        CHECK(job.state().minutes_spent == Approx(5 + 12 + 3 + 1));
    }
    SECTION("undone, its time falls to the next record") {
        job.undo(long_one);
        CHECK(job.state().minutes_spent == Approx(5 + 303 + 1));
    }
}

TEST_CASE("a pause counts nothing up to the record after it, resumed or not") {
    Job job;
    job.add(Remark{"a"}, 5);
    const Sequence pause = job.add(Paused{}, 2);
    CHECK(job.state().paused);
    SECTION("resumed") {
        job.add(Resumed{}, 60);
        CHECK_FALSE(job.state().paused);
        job.add(Remark{"b"}, 3);
        CHECK(job.state().minutes_spent == Approx(10));
    }
    SECTION("not resumed") {
        job.add(ohms("X1.a:4", 1), 60);
        CHECK_FALSE(job.state().paused);
        job.add(Remark{"b"}, 3);
        CHECK(job.state().minutes_spent == Approx(10));
    }
    SECTION("undone") {
        job.add(Resumed{}, 60);
        job.undo(pause);
        CHECK(job.state().minutes_spent == Approx(5 + 62 + 1));
    }
    SECTION("entered minutes count even then") {
        job.add(Resumed{}, 60, 4);
        CHECK(job.state().minutes_spent == Approx(11));
    }
}

TEST_CASE("a clock that was set back counts nothing") {
    Job job;
    job.add(Remark{"a"}, 5);
    job.add(Remark{"b"}, -600);
    job.add(Remark{"c"}, 1);
    CHECK(job.state().minutes_spent == Approx(6));
}

TEST_CASE("a closed job stays closed through remarks and corrections, and is reopened by work") {
    Job job;
    const Sequence reading = job.add(ohms("X1.a:4", 1), 5);
    job.add(Closed{}, 5);
    CHECK(job.state().closed);
    job.add(Remark{"paid"}, 1000);
    job.amend(reading, ohms("X1.a:4", 2));
    CHECK(job.state().closed);
    CHECK(job.state().minutes_spent == Approx(11));  // the thousand minutes after the end are nobody's
    job.add(ohms("X1.a:4", 3));
    CHECK_FALSE(job.state().closed);
}

TEST_CASE("u undoes what a person entered last, whatever the program wrote since") {
    Job job;
    const Sequence first = job.add(ohms("X1.a:4", 1));
    const Sequence second = job.add(ohms("X2.a:4", 1));
    job.implied_cover("seat");
    job.add(Recommended{"{}"});
    CHECK(last_undoable(job.records()) == second);
    job.undo(second);
    CHECK(last_undoable(job.records()) == first);
    const Sequence amend = job.amend(first, ohms("X1.a:4", 2));
    CHECK(last_undoable(job.records()) == amend);
    job.undo(amend);
    job.undo(first);
    CHECK_FALSE(last_undoable(job.records()));
}

TEST_CASE("what cannot be followed has no effect and is told") {
    Job job;
    const Sequence reading = job.add(ohms("X1.a:4", 1));
    job.undo(1);
    job.undo(99);
    job.undo(5);  // itself
    job.amend(1, Remark{"x"});
    job.amend(4, Remark{"x"});
    job.amend(reading, Undo{2});
    job.add(Opened{"other.json", "", "", "", ""});
    job.undo(reading);
    job.undo(reading);
    const State state = job.state();
    CHECK(state.opened.harness_file == "van.json");
    CHECK(problems(job.records()) ==
          Names{"Record 3 would undo record 1, which stays as it is (kind \"opened\"); it has no effect.",
                "Record 4 would undo record 99, which does not exist; it has no effect.",
                "Record 5 would undo record 5, which is not an earlier one; it has no effect.",
                "Record 6 would amend record 1, which stays as it is (kind \"opened\"); it has no effect.",
                "Record 7 would amend record 4, which stays as it is (kind \"undo\"); it has no effect.",
                "Record 8 would put in the place of record 2 what cannot stand there; it has no effect.",
                "Record 9 opens the job a second time; the first opening counts.",
                "Record 11 undoes record 2, which record 10 had undone already."});
}

TEST_CASE("a first record that does not open the job, and a harness that is not its own, are told") {
    CHECK(problems({{1, 0, {Remark{"x"}, {}}}}).size() == 1);
    CHECK(problems({{1, 0, {Opened{"van.json", "{ }", sha256("{}"), "main", ""}, {}}}}) ==
          Names{"The harness text in record 1 is not the one its fingerprint was taken of."});
}

TEST_CASE("any records at all can be replayed, and cutting off the last is like never having written it") {
    for (unsigned seed = 0; seed < 300; ++seed) {
        test::RandomEvents events(seed);
        Job job;
        for (std::size_t i = 0; i < 40; ++i)
            job.add(events.any().body, static_cast<double>(events.number(5)));
        const State state = job.state();
        CHECK(state.last == 41);
        CHECK(state.minutes_spent >= 0);
        CHECK(std::is_sorted(state.entered.begin(), state.entered.end()));
        for (const Sequence entered : state.entered) CHECK(state.undone.count(entered) == 0);
        CHECK(last_undoable(job.records()).has_value() == !state.entered.empty());
        (void)problems(job.records());
        // An undo of the last entry gives the state before it, but for the time it took and the list of what
        // is undone.
        if (!state.entered.empty() && state.entered.back() == state.last) {
            std::vector<Record> before = job.records();
            before.pop_back();
            job.undo(state.last);
            CHECK(values(job.state()) == values(replay(before)));
            CHECK(job.state().covers_off == replay(before).covers_off);
            CHECK(job.state().apart == replay(before).apart);
        }
    }
}
