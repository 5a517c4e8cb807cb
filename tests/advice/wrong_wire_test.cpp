// A probe on the wire beside: found out from what the reading shows.
#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/report/step_text.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"
#include "support/sample_jobs.hpp"

using namespace halfsplit;
using namespace halfsplit::advice;
using test::JobWriter;

namespace {

// The small chain with line L in the colours of line H behind X1.
const harness::Harness& alike() {
    static const harness::Harness harness = [] {
        std::string text = test::read_file("tests/data/small_chain.json");
        const std::string own = R"("l": { "from": "X1.b:5", "to": "M1:2", "base": "YE", "stripe": "BN" })";
        const std::string other = R"("l": { "from": "X1.b:5", "to": "M1:2", "base": "YE", "stripe": "BK" })";
        text.replace(text.find(own), own.size(), other);
        return test::harness_from_text(text);
    }();
    return harness;
}

// Line H is whole as far as M1, and H to L is right; then X1.b:4 shows what X1.b:5 would.
Recommendation after_reading_the_wrong_wire(const harness::Harness& harness) {
    JobWriter job;
    test::begin(job);
    job.read(1, "DS:6", "DS:14", 60.1);
    job.read(1, "M1:1", "DS:6", 0.3);
    job.read(1, "M1:2", "DS:14", 0.3);
    job.read(1, "X1.b:4", "DS:6", 60.2);
    return Advisor(harness, 0).advise(job::replay(job.saved()));
}

}  // namespace

TEST_CASE("a reading that fits the wire beside names that wire and how likely it was") {
    const Recommendation advice = after_reading_the_wrong_wire(alike());
    REQUIRE(advice.doubts.size() == 1);
    const Doubt& doubt = advice.doubts.front();
    CHECK(doubt.red == "X1.b:4");
    CHECK(doubt.probably_on == "X1.b:5");
    CHECK(doubt.chance_of_that > 0.9);
    CHECK(doubt.chance_of_that <= doubt.chance_of_slip);
    REQUIRE_FALSE(doubt.slips.empty());
    CHECK(doubt.slips.front() ==
          "the wrong wire at X1.b:4: cavity 5 (Main bus L) has the same colours, yellow with a black stripe");
    const std::string text = report::step_text(advice, alike(), 0, {200, false});
    CHECK(text.find("You were probably on X1.b:5 (") != std::string::npos);
}

TEST_CASE("where the wire beside has other colours, nobody was on it") {
    const Recommendation advice = after_reading_the_wrong_wire(test::small_chain());
    REQUIRE(advice.doubts.size() == 1);
    CHECK(advice.doubts.front().probably_on.empty());
    const std::string text = report::step_text(advice, test::small_chain(), 0, {200, false});
    CHECK(text.find("You were probably on") == std::string::npos);
}

TEST_CASE("an open where the wire beside leads nowhere is a bad contact rather than that wire") {
    // The step light's wire at X1.b:7 looks like line H, and is mostly not connected to the clip.
    JobWriter job;
    test::begin(job);
    job.read(1, "DS:6", "DS:14", 60.1);
    job.read(1, "M1:1", "DS:6", 0.3);
    job.read(1, "X1.b:4", "DS:6", std::numeric_limits<double>::infinity());
    const Recommendation advice = Advisor(test::small_chain(), 0).advise(job::replay(job.saved()));
    REQUIRE(advice.doubts.size() == 1);
    CHECK(advice.doubts.front().probably_on.empty());
    CHECK(advice.doubts.front().slips.at(0) == "a bad probe contact (reads OL whatever is true)");
    CHECK(advice.doubts.front().slips.at(1).find("cavity 7 (step light)") != std::string::npos);
}

TEST_CASE("a doubt was told to the end of the job although the reading had been taken again and fitted",
          "[long]") {
    JobWriter job;
    test::begin(job);
    job.read(1, "DS:6", "DS:14", 60.1);
    job.read(1, "M1:1", "DS:6", 0.3);
    const auto doubtful = job.read(1, "X1.b:4", "DS:6", std::numeric_limits<double>::infinity());
    const auto advice = [&] { return Advisor(test::small_chain(), 0).advise(job::replay(job.saved())); };
    REQUIRE(advice().doubts.size() == 1);
    CHECK(advice().doubts.front().sequence == doubtful);
    job.read(1, "X1.b:5", "DS:14", 0.2);  // another one settles nothing
    REQUIRE(advice().doubts.size() == 1);
    job.read(1, "X1.b:4", "DS:6", 0.2);
    REQUIRE(advice().doubts.size() == 1);  // which of the two is doubted is told once
    CHECK(advice().doubts.front().sequence == doubtful);
    job.read(1, "M1:2", "DS:14", 0.3);
    CHECK(advice().doubts.empty());
}
