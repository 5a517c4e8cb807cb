// What follows from an event without being said.
#include "halfsplit/job/implied.hpp"

#include "halfsplit/base/digest.hpp"
#include "halfsplit/job/state.hpp"

#include "support/catch.hpp"
#include "support/random_event.hpp"
#include "support/small_chain.hpp"

using namespace halfsplit;
using namespace halfsplit::job;
using test::small_chain;

namespace {

using Names = std::vector<std::string>;

class Job {
  public:
    Job() { records_.push_back({1, 0, {Opened{"van.json", "{}", sha256("{}"), "main", ""}, {}}}); }

    // Adds an event with what it implies; returns the event's number.
    Sequence add(const Body& body) {
        const Sequence first = records_.size() + 1;
        for (Event& event : with_implied({body, {}}, records_, small_chain()))
            records_.push_back({records_.size() + 1, 0, std::move(event)});
        implied_ = records_.size() - first;
        return first;
    }
    Sequence amend(Sequence target, const Body& body) {
        return add(Amend{target, std::make_shared<const Event>(Event{body, {}})});
    }
    std::size_t implied() const { return implied_; }  // by the event added last
    const std::vector<Record>& records() const { return records_; }
    State state() const { return replay(records_); }

  private:
    std::vector<Record> records_;
    std::size_t implied_ = 0;
};

Reading at(const std::string& red, Outcome outcome = Outcome::Closed) {
    return {red, "DS:6", Quantity::Ohm, outcome, 0, false};
}

}  // namespace

TEST_CASE("a reading implies the covers before it, the outer one first") {
    Job job;
    job.add(at("M2:7"));  // behind the trim, which lies under the seat
    CHECK(job.state().covers_off == Names{"seat", "trim"});
    CHECK(job.implied() == 2);
    CHECK(is_implied(job.records().back().event));
    job.add(at("T1:1"));
    CHECK(job.implied() == 0);
}

TEST_CASE("a place that could not be reached implies nothing") {
    Job job;
    job.add(at("M2:7", Outcome::CouldNotReach));
    CHECK(job.implied() == 0);
    CHECK(job.state().covers_off.empty());
}

TEST_CASE("looks, repairs, plugs and the clip imply the covers before their part") {
    for (const Body& body :
         {Body{Seen{"X2", Verdict::Sound, ""}}, Body{Repair{"X2", RepairAction::Cleaned, ""}},
          Body{PlugChange{"X2", false, false}}, Body{ClipMoved{"X2.a:1/2"}}}) {
        Job job;
        job.add(body);
        CHECK(job.state().covers_off == Names{"seat"});
    }
}

TEST_CASE("what was reseated is plugged in again, what was cleaned is not") {
    Job job;
    job.add(PlugChange{"X1", false, false});
    job.add(Repair{"X1", RepairAction::Cleaned, ""});
    CHECK(job.state().apart == Names{"X1"});
    job.add(Repair{"X1", RepairAction::Reseated, ""});
    CHECK(job.state().apart.empty());
    CHECK(job.implied() == 1);
}

TEST_CASE("a correction of an implied cover stands") {
    Job job;
    job.add(at("X1.a:4"));
    const Sequence kick = job.records().size();
    SECTION("by undoing it") {
        job.add(Undo{kick});
    }
    SECTION("by saying that the cover is on") {
        job.add(CoverChange{"kick", false, false});
    }
    CHECK(job.state().covers_off.empty());
    job.add(Remark{"read it from below"});
    CHECK(job.state().covers_off.empty());
    job.add(at("X1.b:4"));  // a new reading there is a new reason
    CHECK(job.state().covers_off == Names{"kick"});
}

TEST_CASE("undoing a reading leaves off what a later reading needed off") {
    Job job;
    const Sequence first = job.add(at("X1.a:4"));
    job.add(at("X1.b:4"));
    job.add(Undo{first});
    CHECK(job.implied() == 1);
    CHECK(job.state().covers_off == Names{"kick"});
}

TEST_CASE("undoing the only reading there takes its covers along") {
    Job job;
    const Sequence only = job.add(at("X1.a:4"));
    const Sequence undo = job.add(Undo{only});
    CHECK(job.state().covers_off.empty());
    job.add(Undo{undo});
    CHECK(job.state().covers_off == Names{"kick"});
    CHECK(job.implied() == 0);  // the old implied record counts again
}

TEST_CASE("a reading amended to another place implies the covers of that place") {
    Job job;
    const Sequence reading = job.add(at("X1.a:4"));
    job.amend(reading, at("X1.a:4", Outcome::Open));
    CHECK(job.implied() == 0);
    const Sequence amend = job.amend(reading, at("X2.a:1"));
    CHECK(job.state().covers_off == Names{"seat"});
    job.add(Undo{amend});
    CHECK(job.state().covers_off == Names{"kick"});
}

TEST_CASE("names that the harness does not know imply nothing") {
    Job job;
    job.add(at("Q9:1"));
    job.add(Seen{"Q9", Verdict::Sound, ""});
    CHECK(job.state().covers_off.empty());
}

TEST_CASE("an event comes back first and unchanged, and what it implies is marked so") {
    test::RandomEvents events(10);
    Job job;
    for (int i = 0; i < 300; ++i) {
        const Event event = events.any();
        const std::vector<Event> all = with_implied(event, job.records(), small_chain());
        REQUIRE(all.front() == event);
        for (std::size_t k = 1; k < all.size(); ++k) CHECK(is_implied(all[k]));
        if (i % 10 == 0) job.add(event.body);
    }
}
