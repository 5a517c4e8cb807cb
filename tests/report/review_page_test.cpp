// A review as a page: that it tells what the review knows, that nothing on it runs or is fetched, and what of
// accessibility a rule can check.
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/report/review.hpp"

#include "report/review_plots.hpp"
#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/markup.hpp"
#include "support/sample_jobs.hpp"
#include "support/small_chain.hpp"

#include <algorithm>
#include <filesystem>
#include <regex>
#include <set>

using namespace halfsplit;
using advice::Review;

namespace {

std::string page_of(const Review& review) {
    return report::review_html(review, test::small_chain(), 0);
}

std::string page_of(const std::vector<job::Record>& records) {
    return page_of(advice::retrospect(records));
}

// Every page that the rules below are held against: jobs whole and not, the saved jobs of the demo, nothing
// at all.
std::vector<std::string> make_pages() {
    std::vector<std::string> all{page_of(test::job_with_a_repair_that_did_not_cure()),
                                 page_of(test::job_left_open()), page_of(Review{})};
    for (const std::string name : {"minibus-lift-silent.job", "forestry-slew-loom.job"}) {
        const auto contents = job::read_log(test::read_file("data/demo/jobs/" + name), name);
        const auto subject = advice::subject_of(contents.records);
        all.push_back(
            report::review_html(advice::retrospect(contents, subject), subject.harness, subject.network));
    }
    return all;
}

const std::vector<std::string>& pages() {
    static const std::vector<std::string> all = make_pages();
    return all;
}

bool holds(const std::string& page, const std::string& words) {
    return page.find(words) != std::string::npos;
}

std::size_t count_of(const std::string& text, const std::string& words) {
    std::size_t count = 0;
    for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++count;
    return count;
}

// What a reader sees: tags out, links undone.
std::string words_of(const std::string& page) {
    return std::regex_replace(page.substr(page.find("<body>")), std::regex("<[^>]*>"), "");
}

}  // namespace

TEST_CASE("one glance at a review's page says whether the job is whole, what to bill, what to do") {
    const std::string whole = page_of(test::job_with_a_repair_that_did_not_cure());
    CHECK(holds(whole, "Is the job whole? <span class=\"badge\">YES</span>"));
    CHECK(holds(words_of(whole), "Fault provenYESproven: seen by eye"));
    CHECK(holds(words_of(whole), "): H to L 60.1 ohm, all modules answer, codes clear, complaint gone"));
    CHECK(holds(whole, "2 h (120 min)"));
    CHECK(holds(whole, "Nothing is left to do."));

    const std::string open = page_of(test::job_left_open());
    CHECK(holds(open, "Is the job whole? <span class=\"badge no\">NO</span>"));
    CHECK(holds(words_of(open), "Job closedNOpaused, not closed"));
    for (const std::string what : {"plug in T1", "put back kick (kick panel)", "close the job"})
        CHECK(holds(open, "<li>" + what + "</li>"));
    CHECK(holds(words_of(open), "read DS:6 to DS:14 again: record 22 does not fit"));
}

TEST_CASE("a review's page says what its text says, section by section") {
    const Review review = advice::retrospect(test::job_with_a_repair_that_did_not_cure());
    const std::string words = words_of(page_of(review));
    for (const advice::ReviewStep& step : review.steps) {
        INFO(step.sequence);
        CHECK(holds(words, step.in_words));
    }
    for (const std::string part :
         {"seat controller silent, lamp on in the dash", "record 25", "3 min more labour for this step",
          "bit", "step light fitted", "The log", "records", "SHA-256", "which the text in the job has",
          "Weak evidence relied on", "Figures that are assumed", "Still open, still unplugged"}) {
        INFO(part);
        CHECK(holds(words, part));
    }
    for (const std::string& sentence : review.assumed) CHECK(holds(words, sentence));
}

TEST_CASE("markup and control characters in what people wrote are shown as text") {
    // What a log can hold, and what only data could.
    const std::string bad = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)>&amp;\x1b[31m\n";
    const std::string worse = bad + "\xff";
    test::JobWriter job;
    job.enter(1, job::Intake{.complaint = bad, .recent_work = bad, .conditions = {bad}, .replaced = {bad}});
    job.enter(1, job::Answers{.answering = {bad}, .silent = {"M1"}});
    test::make_safe(job, 5);
    job.read(1, bad, "DS:6", 3);
    job.enter(1, job::Seen{"X1", job::Verdict::Faulty, bad});
    job.enter(1, job::Repair{"X1", job::RepairAction::Cleaned, bad});
    job.enter(1, job::Remark{bad});
    Review review = advice::retrospect(job.saved());
    for (std::string* text : {&review.vehicle, &review.title, &review.network_name, &review.harness_file,
                              &review.log.harness_sha256, &review.log.program_version})
        *text = worse;
    review.notices = review.assumed = {worse};
    review.open.covers_off = review.open.parts_apart = {{worse, worse}};
    const std::string page = page_of(review);
    CHECK(count_of(page, "&lt;script&gt;") > 10);
    CHECK_FALSE(holds(page, "<script"));
    CHECK_FALSE(holds(page, "<img"));
    for (const test::Tag& tag : test::tags_of(page)) {
        for (const auto& [name, value] : tag.attributes) CHECK(name.substr(0, 2) != "on");
    }
    CHECK(std::none_of(page.begin(), page.end(), [](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return (byte < 0x20 && byte != '\n') || byte == 0x7f || byte == 0xff;
    }));
}

TEST_CASE("nothing on a review's page runs or is fetched") {
    for (const std::string& page : pages()) {
        CHECK(holds(page, "content=\"default-src 'none'; style-src 'unsafe-inline'\""));
        std::string plain = std::regex_replace(page, std::regex("xmlns(:xlink)?=\"[^\"]*\""), "");
        for (const std::string outward : {"http://", "https://", "//", "src=", "url(http", "@import", "<link",
                                          "<script", "<iframe", "<object", "javascript:"}) {
            INFO(outward);
            CHECK_FALSE(holds(plain, outward));
        }
        for (const test::Tag& tag : test::tags_of(page)) {
            const auto link = tag.attributes.find("href");
            if (link != tag.attributes.end()) CHECK(link->second.substr(0, 1) == "#");
        }
    }
}

TEST_CASE("headings of a review's page are in order, ids are unique, and every link leads somewhere") {
    for (const std::string& page : pages()) {
        std::set<std::string> ids;
        std::set<std::string> wanted;
        int level = 0;
        std::size_t first_level = 0;
        for (const test::Tag& tag : test::tags_of(page)) {
            if (tag.name.size() == 2 && tag.name[0] == 'h' && tag.name[1] >= '1' && tag.name[1] <= '6') {
                INFO(tag.name << " " << tag.text);
                const int own = tag.name[1] - '0';
                CHECK(own <= level + 1);
                if (own == 1) ++first_level;
                level = own;
            }
            if (tag.attributes.count("id") != 0) {
                INFO(tag.attributes.at("id"));
                CHECK(ids.insert(tag.attributes.at("id")).second);
            }
            if (tag.attributes.count("href") != 0) wanted.insert(tag.attributes.at("href").substr(1));
        }
        CHECK(first_level == 1);
        for (const std::string& id : wanted) {
            INFO(id);
            CHECK(ids.count(id) == 1);
        }
        CHECK(holds(page, "<html lang=\"en\">"));
        CHECK(holds(page, "<main>"));
    }
}

TEST_CASE("every link of a review's page says where it leads, heard by itself") {
    for (const std::string& page : pages()) {
        for (const test::Tag& tag : test::tags_of(page)) {
            if (tag.name != "a") continue;
            INFO(tag.text);
            const auto label = tag.attributes.find("aria-label");
            const std::string name = label == tag.attributes.end() ? tag.text : label->second;
            // A name of its own begins or ends with what is seen (WCAG 2.1, success criterion 2.5.3).
            CHECK(holds(name, tag.text));
            if (tag.attributes.at("href").rfind("#record-", 0) == 0)
                CHECK(holds(name, "record " + tag.attributes.at("href").substr(8)));
        }
    }
}

TEST_CASE("a review's page says what the signs of its drawings mean") {
    const std::string words = words_of(page_of(test::job_left_open()));
    for (const std::string sign :
         {"? and a frame", "! and a frame", "bar beneath", "\u25b2 probe", "\u25b3 clip"})
        CHECK(holds(words, sign));
    CHECK_FALSE(holds(words_of(page_of(Review{})), "In the drawings"));
}

TEST_CASE("every picture of a review's page has a name, every table a caption and headers with a scope") {
    for (const std::string& page : pages()) {
        const std::vector<test::Tag> tags = test::tags_of(page);
        for (std::size_t i = 0; i < tags.size(); ++i) {
            const bool hidden = tags[i].attributes.count("aria-hidden") != 0;
            if (tags[i].name == "svg" && !hidden) {
                CHECK(tags[i].attributes.at("role") == "img");
                CHECK(tags[i + 1].name == "title");
                CHECK(tags[i + 1].text.size() > 5);
            }
            if (tags[i].name == "table") CHECK(tags[i + 1].name == "caption");
            if (tags[i].name == "th") {
                const std::string scope =
                    tags[i].attributes.count("scope") ? tags[i].attributes.at("scope") : "";
                CHECK((scope == "row" || scope == "col"));
            }
            if (tags[i].attributes.count("tabindex") != 0) CHECK(tags[i].attributes.count("aria-label") == 1);
        }
    }
}

TEST_CASE("the colours of a review's page contrast as WCAG 2.1 asks") {
    // Success criterion 1.4.3: 4.5 to 1 for text; 1.4.11: 3 to 1 for what a picture is read by.
    CHECK(test::contrast("#000000", "#ffffff") == Approx(21));
    CHECK(test::contrast("#777777", "#ffffff") == Approx(4.48).margin(0.005));
    const std::string page = page_of(Review{});
    const std::string style = page.substr(page.find("<style>"), page.find("</style>") - page.find("<style>"));
    const std::regex rule("([^{}]+)\\{([^{}]*)\\}");
    std::size_t checked = 0;
    for (auto at = std::sregex_iterator(style.begin(), style.end(), rule); at != std::sregex_iterator();
         ++at) {
        const std::string body = " " + (*at)[2].str();
        const auto colour_of = [&](const std::string& property) {
            std::smatch found;
            const bool any =
                std::regex_search(body, found, std::regex("[ ;]" + property + ": (#[0-9a-f]{6})"));
            return any ? found[1].str() : std::string();
        };
        const std::string ground = colour_of("background").empty() ? "#ffffff" : colour_of("background");
        INFO((*at)[0].str());
        for (const std::string property : {"color", "fill"}) {
            const std::string colour = colour_of(property);
            if (colour.empty()) continue;
            ++checked;
            CHECK(test::contrast(colour, ground) >= (property == "color" ? 4.5 : 3.0));
        }
        // No colour by another name, or it would go unchecked.
        CHECK_FALSE(std::regex_search(body, std::regex("(color|fill|background): *[a-z]")));
    }
    CHECK(checked >= 5);
}

TEST_CASE("the timeline holds all minutes, each under its own kind of work") {
    const Review review = advice::retrospect(test::job_with_a_repair_that_did_not_cure());
    double end = 0;
    std::map<advice::Work, double> sums;
    for (const report::Stretch& stretch : report::stretches(review)) {
        CHECK(stretch.from == Approx(end));
        end = stretch.to;
        sums[stretch.work] += stretch.to - stretch.from;
    }
    CHECK(end == Approx(review.minutes.spent));
    for (const advice::Spent& spent : review.minutes.by_work)
        CHECK(sums.at(spent.work) == Approx(spent.minutes));
}

TEST_CASE("bars of what was suspected stand in the proportion of the figures") {
    advice::Outlook much{.suspects = 8, .bits = 3};
    advice::Outlook little{.suspects = 2, .bits = 0.75};
    const std::string plot = report::outlook_plot({{0, &much}, {12, &little}}, report::Measure::Suspects);
    CHECK(holds(plot, "Parts suspected: 8 at the start, 2 after record 12"));
    std::vector<double> heights;
    for (const test::Tag& tag : test::tags_of(plot)) {
        if (tag.name == "rect" && tag.attributes.count("class") == 0)
            heights.push_back(std::stod(tag.attributes.at("height")));
    }
    REQUIRE(heights.size() == 2);
    CHECK(heights[0] == Approx(4 * heights[1]));
    CHECK(count_of(report::outlook_plot(std::vector<report::PlottedOutlook>(5000, {7, &much}),
                                        report::Measure::Bits),
                   "<rect") <= report::most_bars + 2);
}

TEST_CASE("a page of 500 steps stays below a megabyte, and one of 10,000 says what it leaves out") {
    Review review = advice::retrospect(test::job_left_open());
    const auto steps = review.steps;
    const auto lengthen = [&](std::size_t count) {
        review.steps.clear();
        for (std::size_t i = 0; i < count; ++i) {
            review.steps.push_back(steps[i % steps.size()]);
            review.steps.back().sequence = i + 2;
        }
        return page_of(review);
    };
    const std::string page = lengthen(500);
    CHECK(page.size() < 1'000'000);
    CHECK(count_of(page, "<section class=\"step") == 500);
    CHECK_FALSE(holds(page, "left out here"));
    const std::string longer = lengthen(10'000);
    CHECK(longer.size() < 1'000'000);
    CHECK(count_of(longer, "<section class=\"step") == report::most_steps);
    CHECK(holds(longer, "The first 9500 steps are left out here"));
    CHECK(holds(longer, "Pictures are drawn for the newest steps only"));
}
