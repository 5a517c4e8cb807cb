// The vehicle turns out to be other than its harness file: the job goes on with what was found, and the file
// and the job's copy of it stay as they were.
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/difference.hpp"
#include "halfsplit/harness/vehicle.hpp"
#include "halfsplit/job/words.hpp"
#include "halfsplit/session/session.hpp"

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"

using namespace halfsplit;
using namespace halfsplit::test;

namespace {

struct Van {
    FakeFiles files;
    FakeClock clock;
    std::unique_ptr<session::Session> session;

    Van() {
        files.put("van.json", read_file("tests/data/small_chain.json"));
        open();
    }
    void open() {
        session.reset();
        session = std::make_unique<session::Session>(
            files, clock, session::Opening{.harness_path = "van.json", .job_path = "a.job"});
    }
    void say(const std::string& line) { session->enter(session->parse(split_words(line))); }
    std::string refusal(const std::string& line) {
        const std::size_t before = session->records().size();
        try {
            say(line);
        } catch (const InputError& error) {
            CHECK(session->records().size() == before);
            return error.what();
        }
        return "taken";
    }
    const harness::Part* part(const std::string& id) const {
        const auto found = find_part(session->harness(), id);
        return found == harness::none ? nullptr : &session->harness().parts[found];
    }
};

bool holds(const std::string& text, const std::string& what) {
    return text.find(what) != std::string::npos;
}

}  // namespace

TEST_CASE("a connector found on the vehicle parts its run, and can be read at both halves") {
    Van van;
    const double whole = van.part("W3")->length_m;
    van.say("differs connector X9 in W3 cavities 3/4 after 0.2");
    REQUIRE(van.part("X9"));
    CHECK(van.part("W3")->length_m == Approx(0.2));
    REQUIRE(van.part("W3-X9"));
    CHECK(van.part("W3-X9")->length_m == Approx(whole - 0.2));
    CHECK(find_point(van.session->harness(), "X9.a:3/4") != harness::none);
    CHECK(find_point(van.session->harness(), "X9.b:3/4") != harness::none);
    van.say("safe ignition=off bus=asleep battery=off waited=10");
    van.say("reading X9.b:3 clip OL");
    CHECK(van.session->state().readings.size() == 1);

    // The job's copy stays; opened again, and in the lead's view, the vehicle is as it turned out.
    CHECK(van.session->state().opened.harness_text == read_file("tests/data/small_chain.json"));
    van.open();
    CHECK(van.part("X9"));
    const advice::Subject subject = advice::subject_of(van.session->records());
    CHECK(find_part(subject.harness, "X9") != harness::none);
}

TEST_CASE("the run that a connector was found in is named by the parts at its ends") {
    Van van;
    const harness::Harness& harness = van.session->harness();
    const harness::Strand& strand = *van.part("W3")->strand[0];
    const std::string first = harness.parts[harness.terminals[strand.from].part].id;
    const std::string second = harness.parts[harness.terminals[strand.to].part].id;
    const double whole = van.part("W3")->length_m;
    const auto difference = [&](const std::string& line) {
        return std::get<job::VehicleDiffers>(van.session->parse(split_words(line)).body).difference;
    };
    const auto there = difference("differs connector X9 between " + first + " and " + second + " after 0.2");
    CHECK(there.run == "W3");
    CHECK(*there.after_m == Approx(0.2));
    const auto back = difference("differs connector X9 between " + second + " " + first + " after 0.2");
    CHECK(back.run == "W3");
    CHECK(*back.after_m == Approx(whole - 0.2));
    CHECK(holds(van.refusal("differs connector X9 between DS and M1"), "no run lies between DS and M1"));
    CHECK(holds(van.refusal("differs connector X9 beside W3"), "between and the parts at its two ends"));
}

TEST_CASE("an option that is fitted after all brings its module, and undoing takes it away again") {
    Van van;
    const auto modules = [&] {
        return harness::modules_on(van.session->harness(), van.session->network()).size();
    };
    const std::size_t before = modules();
    van.say("differs fitted lift yes");
    CHECK(modules() == before + 1);
    van.say("undo");
    CHECK(modules() == before);
}

TEST_CASE("a part that is elsewhere and a cover that takes longer cost what they cost") {
    Van van;
    van.say("differs minutes kick 30 20");
    const auto cover = find_cover(van.session->harness(), "kick");
    CHECK(van.session->harness().covers[cover].off_minutes == 30);
    const std::string place = van.session->harness().places.back().id;
    van.say("differs place X1 " + place + " under kick");
    CHECK(van.part("X1")->access.covers == std::vector<harness::Index>{cover});
    CHECK(van.part("X1")->access.place == find_place(van.session->harness(), place));
}

TEST_CASE("a difference that makes no sense is refused with the nearest name, and nothing is written") {
    Van van;
    CHECK(holds(van.refusal("differs fitted lfit yes"), "Nearest known name: \"lift\""));
    CHECK(holds(van.refusal("differs connector X1 in W3"), "duplicate-id"));
    CHECK(holds(van.refusal("differs connector X9 in X1"), "X1 is a connector"));
    CHECK(holds(van.refusal("differs connector X9 in W3 after 500"), "500"));
    CHECK(holds(van.refusal("differs connector X9 in W3 cavities 3"), "H and L with a slash"));
    CHECK(holds(van.refusal("differs conector X9 in W3"), "Nearest known name: \"connector\""));
    CHECK(holds(van.refusal("differs minutes kick 9"), "minutes to refit it"));
    CHECK(holds(van.refusal("differs place X1 attic"), "no place is named 'attic'"));
}

TEST_CASE("what no longer holds once a difference was taken back is left out") {
    Van van;
    van.say("differs connector X9 in W3");
    const std::size_t connector = van.session->records().size();
    const std::string place = van.session->harness().places.back().id;
    van.say("differs place X9 " + place);
    van.say("undo " + std::to_string(connector));
    CHECK_FALSE(van.part("X9"));
    CHECK(van.session->state().differences.size() == 1);
    van.open();
    CHECK_FALSE(van.part("X9"));
    van.say("differs fitted lift yes");  // and the job goes on
    CHECK(van.session->state().differences.size() == 2);
}

TEST_CASE("a difference is told in plain words") {
    Van van;
    const auto words = [&](const std::string& line) {
        return job::in_words(van.session->parse(split_words(line)), van.session->harness());
    };
    CHECK(words("differs fitted lift no") == "On this vehicle lift: not fitted.");
    CHECK(words("differs connector X9 in W3 after 0.25 at driver under kick") ==
          "A connector found in W3: X9, after 0.25 m, at driver under kick.");
    CHECK(words("differs minutes kick 30 20") == "Kick panel: 30 min off, 20 min on.");
}
