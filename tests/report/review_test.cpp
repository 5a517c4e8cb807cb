// A review as text and as data: pure functions of the view.
#include "halfsplit/report/review.hpp"

#include "halfsplit/advice/recommendation_json.hpp"
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/base/schema.hpp"
#include "halfsplit/base/text.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/random_event.hpp"
#include "support/sample_jobs.hpp"
#include "support/small_chain.hpp"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>

using namespace halfsplit;
using advice::Review;
using nlohmann::json;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

void check_fits(const std::string& text, std::size_t columns) {
    REQUIRE_FALSE(text.empty());
    CHECK(text.back() == '\n');
    for (const std::string& line : lines_of(text)) {
        INFO(line);
        CHECK(display_width(line) <= columns);
        CHECK(printable(line) == line);  // no escape sequence: nothing is told by colour
    }
}

bool holds(const std::string& text, const std::string& words) {
    // Line breaks and indents may fall anywhere between words.
    return join(split_words(text), " ").find(words) != std::string::npos;
}

// With HALFSPLIT_APPROVE=1 in the environment the file is written anew, for a person to read and approve.
void check_against(const std::string& path, const std::string& text) {
    if (std::getenv("HALFSPLIT_APPROVE") != nullptr) std::ofstream(test::path_of(path)) << text;
    CHECK(text == test::read_file(path));
}

}  // namespace

TEST_CASE("the review of a job with two faults reads as approved") {
    const Review review = advice::retrospect(test::job_with_a_repair_that_did_not_cure());
    check_against("tests/data/review_two_faults.txt", report::review_text(review, 80));
}

TEST_CASE("the review of a job left open reads as approved on a small screen") {
    const Review review = advice::retrospect(test::job_left_open());
    check_against("tests/data/review_left_open_40.txt", report::review_text(review, 40));
}

TEST_CASE("a review fits the screen, and narrow ones are taken for thirty columns") {
    for (const auto& records : {test::job_with_a_repair_that_did_not_cure(), test::job_left_open()}) {
        const Review review = advice::retrospect(records);
        for (const std::size_t columns : {30U, 40U, 80U, 120U})
            check_fits(report::review_text(review, columns), columns);
        CHECK(report::review_text(review, 1) == report::review_text(review, 30));
    }
}

TEST_CASE("the summary comes first: vehicle, complaint, cause, correction, minutes, status") {
    const std::string text =
        report::review_text(advice::retrospect(test::job_with_a_repair_that_did_not_cure()), 80);
    std::size_t at = 0;
    for (const std::string label :
         {"vehicle ", "complaint ", "cause ", "correction ", "minutes ", "status ", "STEPS"}) {
        const std::size_t found = label == "vehicle " ? text.find(label) : text.find("\n" + label, at);
        INFO(label);
        REQUIRE(found != std::string::npos);
        at = found;
    }
}

TEST_CASE("a job that is not finished says so at the top and what is missing") {
    const std::string text = report::review_text(advice::retrospect(test::job_left_open()), 80);
    CHECK(holds(
        text,
        "status NOT FINISHED: paused fault not found to do read DS:6 to DS:14 again: record 22 does not fit; "
        "find the fault; plug in T1; put back trim (rear side trim); put back seat (rear seat); put back "
        "kick "
        "(kick panel); close the job"));
    CHECK(holds(text, "cause not established; suspected:"));
    CHECK(holds(text, "correction none"));
    CHECK(holds(text, "covers off kick (kick panel), seat (rear seat) and trim (rear side trim)"));
    CHECK(holds(text, "unplugged T1"));
}

TEST_CASE("a job closed with something left says so") {
    test::JobWriter job;
    test::begin(job);
    job.enter(2, job::Repair{"X1", job::RepairAction::Reseated, ""});
    job.enter(1, job::Closed{});
    const std::string open = report::review_text(advice::retrospect(job.saved()), 80);
    CHECK(holds(open,
                "status CLOSED, BUT NOT WHOLE fault not proven: repaired on suspicion to do prove the repair "
                "of X1; put back kick (kick panel)"));
    job.enter(5, job::Verified{.complaint_gone = true});
    job.enter(5, job::CoverChange{.cover = "kick", .off = false});
    job.enter(1, job::Closed{});
    const std::string closed = report::review_text(advice::retrospect(job.saved()), 80);
    CHECK(holds(closed, "status closed, repair proven, everything back"));
    CHECK(holds(closed, "fault seen repaired on suspicion: nobody had seen it faulty"));
    CHECK(holds(closed, "CARE reseating alone may cure for a while only (common practice)"));
    CHECK(holds(
        closed,
        "proof cured (record 8): H to L not read, answers not scanned, codes not scanned, complaint gone"));
}

TEST_CASE("undone and amended records stay visible") {
    const std::string text = report::review_text(advice::retrospect(test::job_left_open()), 80);
    CHECK(holds(text, "OL (over the range: open). VOID undone by record 10; does not count"));
    CHECK(holds(text,
                "1.4 ohm. AMENDED by record 13: Line BUS-H, X1.a cavity 4 (yellow with a black stripe) to DS "
                "cavity 6: 0.1 ohm."));
    CHECK(holds(text, "in the end undone by record 10"));
    CHECK(holds(text, "in the end STILL DOES NOT FIT:"));
}

TEST_CASE("both kinds of detour say which they are and are summed apart") {
    const std::string text =
        report::review_text(advice::retrospect(test::job_with_a_repair_that_did_not_cure()), 80);
    CHECK(holds(text, "4 min more expected for the whole hunt, by the advice's own figures"));
    CHECK(holds(text, "3 min more labour for this step; it found the fault"));
    CHECK(holds(text, "of the hunt 4 min more of labour 3 min more, 13 min less"));
}

TEST_CASE("a figure is not parted from its unit at the end of a line") {
    const Review review = advice::retrospect(test::job_left_open());
    for (std::size_t columns = 30; columns <= 90; ++columns) {
        const std::string text = report::review_text(review, columns);
        for (const std::string& line : lines_of(text)) {
            const auto words = split_words(line);
            if (words.empty()) continue;
            INFO(columns << ": " << line);
            for (const std::string unit : {"%", "min", "ohm", "%;", "%,", "ohm.", "ohm:"})
                CHECK(words.front() != unit);
        }
    }
}

TEST_CASE("a review of nothing at all is still a text and a document") {
    const Review empty;
    check_fits(report::review_text(empty, 40), 40);
    CHECK(validate(report::review_json(empty), "review").empty());
}

TEST_CASE("control characters in what people wrote do not reach the screen") {
    Review review;
    review.vehicle = "van\x1b[31m red";
    review.has_intake = true;
    review.intake.complaint = "two\nlines";
    review.notices = {"bell \a"};
    check_fits(report::review_text(review, 40), 40);
}

TEST_CASE("a review as data keeps to its schema and carries what the text says") {
    for (const auto& records : {test::job_with_a_repair_that_did_not_cure(), test::job_left_open()}) {
        const json document = report::review_json(advice::retrospect(records));
        for (const SchemaViolation& violation : validate(document, "review")) {
            FAIL_CHECK(violation.pointer << ": " << violation.message);
        }
        CHECK(json::parse(document.dump()) == document);
    }
    const json document =
        report::review_json(advice::retrospect(test::job_with_a_repair_that_did_not_cure()));
    CHECK(document.at("opened") == "2026-03-01T07:45:00Z");
    CHECK(document.at("intake").at("complaint") == "seat controller silent, lamp on in the dash");
    CHECK(document.at("minutes").at("spent") == 120);
    CHECK(document.at("minutes").at("expected") == 47);
    CHECK(document.at("repairs").at(1).at("fault") == "X2:receded-h@1");
    CHECK(document.at("repairs").at(1).at("verified").at("h_to_l_ohm") == 60.1);
    CHECK(document.at("detours").at(1).at("basis") == "alternative");
    CHECK(document.at("contradictions").at(0).at("reread_by") == 25);
    const json& reading = document.at("steps").at(3);
    CHECK(reading.at("record") == 6);
    CHECK(reading.at("event").at("red") == "DS:6");
    CHECK(reading.at("heed") == "detour");
    CHECK(reading.at("state").at("battery_off") == true);
    CHECK(reading.at("told").at("bits").get<double>() > 0.1);
    CHECK_FALSE(reading.contains("undone_by"));
}

namespace {

// Half events of any kind and content, half such as could have happened on the small chain.
job::Body likely_or_not(test::RandomEvents& random, job::Sequence last) {
    const harness::Harness& harness = test::small_chain();
    const auto terminal = [&] { return terminal_name(harness, random.number(harness.terminals.size() - 1)); };
    const auto part = [&] { return harness.parts[random.number(harness.parts.size() - 1)].id; };
    switch (random.number(13)) {
        case 0:
        case 1:
        case 2:
            return job::Reading{
                .red = terminal(), .black = "DS:6", .value = static_cast<double>(random.number(300))};
        case 3:
            return job::Reading{.red = terminal(), .black = terminal(), .outcome = job::Outcome::Open};
        case 4:
            return job::Seen{part(), static_cast<job::Verdict>(random.number(2)), "so"};
        case 5:
            return job::Repair{part(), static_cast<job::RepairAction>(random.number(4)), ""};
        case 6:
            return job::PlugChange{.part = part(), .plugged = random.number(1) == 1};
        case 7:
            return job::Undo{1 + random.number(last)};
        case 8:
            return job::Recommended{advice::to_text(test::read_advice(terminal(), "DS:6", 5, 20, 60))};
        default:
            return random.any().body;
    }
}

}  // namespace

TEST_CASE("whatever was recorded, a review is made, fits, keeps to its schema, and its minutes add up",
          "[long]") {
    test::RandomEvents random(20260301);
    for (int round = 0; round < 12; ++round) {
        test::JobWriter job;
        for (int i = 0; i < 25; ++i)
            job.enter(static_cast<double>(random.number(9)), likely_or_not(random, job.last()));
        const Review review = advice::retrospect(job.saved());
        INFO("round " << round);
        check_fits(report::review_text(review, 40), 40);
        CHECK(validate(report::review_json(review), "review").empty());
        double sum = 0;
        for (const advice::ReviewStep& step : review.steps) sum += step.minutes;
        CHECK(sum <= review.minutes.spent + 1e-6);
    }
}
