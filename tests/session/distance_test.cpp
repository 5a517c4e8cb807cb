// A hunt in which an open in one run is located by capacitance, through the executor behind hunt and note.
#include "halfsplit/advice/recommendation_json.hpp"
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/base/schema.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/report/review.hpp"
#include "halfsplit/report/step_text.hpp"
#include "halfsplit/session/session.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>

using namespace halfsplit;

namespace {

class Van {
  public:
    Van() { files_.put("chain.json", test::read_file("tests/data/small_chain.json")); }

    session::Session& session() {
        if (!session_)
            session_ = std::make_unique<session::Session>(files_, clock_,
                                                          session::Opening{"chain.json", "test.job", ""});
        return *session_;
    }
    std::vector<job::Record> enter(const std::string& words) {
        clock_.advance_minutes(1);
        return session().enter(session().parse(split_words(words)));
    }
    void enter_all(const std::vector<std::string>& entries) {
        for (const std::string& words : entries) enter(words);
    }
    void reopen() { session_.reset(); }
    std::string step() {
        return report::step_text(session().advise(), session().harness(), session().network(), {200, false});
    }

  private:
    test::FakeFiles files_;
    test::FakeClock clock_;
    std::unique_ptr<session::Session> session_;
};

// Line H is open in W5, 0.7 m from M1; 60 pF/m (Schneider 890 manual, p. 83).
void measure(Van& van) {
    van.enter_all({"intake complaint=rear dead", "answers all",
                   "safe ignition=off bus=asleep battery=off waited=10", "unplugged M1", "unplugged T1",
                   "reading M1:3 T1:1 OL"});
    van.enter("distance capacitance M1:3 T1:1 42pF 156pF");
}

}  // namespace

TEST_CASE("a located open shows its metres and its run, and is the likeliest from there") {
    Van van;
    measure(van);
    const advice::Recommendation& advice = van.session().advise();
    REQUIRE(advice.located.size() == 1);
    CHECK(advice.located.front().run == "W5");
    CHECK(advice.located.front().counts);
    REQUIRE_FALSE(advice.parts.empty());
    CHECK(advice.parts.front().part == "W5");
    CHECK(van.step().find(
              "metres 0.70 m from M1:3/4, give or take 0.15 m; that is in run W5, 0.70 m from its end "
              "at M1:3.\n") != std::string::npos);
    const auto json = advice::to_json(advice);
    CHECK(validate(json, "next").empty());
    CHECK(json["located"][0]["metres_into_run"] == Approx(0.7));
    CHECK(advice::to_json(advice::recommendation_from_json(json)) == json);
    const std::vector<job::Record> before = van.session().records();
    van.reopen();
    CHECK(van.session().records() == before);
    CHECK(van.session().state().distances.size() == 1);
}

TEST_CASE("both ends of a distance were laid bare, and the technician stands at the second") {
    Van van;
    van.enter_all(
        {"intake complaint=x", "answers all", "safe ignition=off bus=asleep battery=off waited=10"});
    const auto covers = van.session().state().covers_off;
    CHECK(covers.empty());
    van.enter_all({"unplugged X1", "unplugged M1", "cover on seat"});
    const auto written = van.enter("distance capacitance X1.b:4 M1:1 50pF 100pF");
    REQUIRE(written.size() == 2);
    CHECK(std::get<job::CoverChange>(written[1].event.body) == job::CoverChange{"seat", true, true});
}

TEST_CASE("the review tells a distance, the state it was measured in, and what it told") {
    Van van;
    measure(van);
    const advice::Review review = advice::retrospect(van.session().records());
    const auto step = std::find_if(review.steps.begin(), review.steps.end(), [](const auto& each) {
        return std::holds_alternative<job::Distance>(each.event.body);
    });
    REQUIRE(step != review.steps.end());
    CHECK(step->in_words.find("0.70 m from M1:3/4, give or take 0.15 m; that is in run W5") !=
          std::string::npos);
    CHECK(step->state.apart == std::vector<std::string>{"M1", "T1"});
    REQUIRE(step->told.has_value());
    CHECK(step->told->moved > 0.2);
    const std::string text = report::review_text(review, 120);
    CHECK(text.find("distance") != std::string::npos);
    INFO(text);
    CHECK(text.find("run W5, 0.70 m from its end at M1:3.") != std::string::npos);
    CHECK(validate(report::review_json(review), "review").empty());
}

TEST_CASE("a distance whose unplugging is undone no longer counts, and the step says so") {
    Van van;
    measure(van);
    const auto likely = [&](const std::string& part) {
        for (const auto& each : van.session().advise().parts) {
            if (each.part == part) return each.probability;
        }
        return 0.0;
    };
    const double located = likely("W5");
    const auto& records = van.session().records();
    const auto unplugged = std::find_if(records.begin(), records.end(), [](const job::Record& record) {
        const auto* change = std::get_if<job::PlugChange>(&record.event.body);
        return change != nullptr && change->part == "T1";
    });
    REQUIRE(unplugged != records.end());
    van.enter("undo " + std::to_string(unplugged->sequence));
    CHECK_FALSE(van.session().advise().located.front().counts);
    CHECK(likely("W5") < located / 3);
    CHECK(van.step().find("does not count") != std::string::npos);
}

TEST_CASE("no distance before the safe state was told, nor after a scan") {
    Van van;
    van.enter_all({"intake complaint=x", "answers all", "unplugged M1", "unplugged T1"});
    const std::string words = "distance capacitance M1:3 T1:1 42pF 156pF";
    CHECK_THROWS_AS(van.enter(words), InputError);
    van.enter("safe ignition=off bus=asleep battery=off waited=10");
    CHECK_NOTHROW(van.enter(words));
    van.enter("answers all");
    CHECK_THROWS_AS(van.enter(words), InputError);
}

TEST_CASE("a repair leaves a distance behind: it is evidence of the state before") {
    Van van;
    measure(van);
    van.enter("repair W5 repaired");
    CHECK(van.session().advise().located.empty());
    CHECK(van.session().state().distances.size() == 1);
}
