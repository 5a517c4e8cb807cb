// `review --html` as a command: what it writes, what it refuses, and how browsers and a validator take the
// pages of the demo's jobs.
#include "halfsplit/base/digest.hpp"
#include "halfsplit/base/files.hpp"
#include "halfsplit/cli/run.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/report/review.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"
#include "support/long_job.hpp"
#include "support/sample_jobs.hpp"
#include "support/temporary_folder.hpp"

#include <cstdlib>
#include <fstream>
#include <regex>
#include <sstream>

using namespace halfsplit;

namespace {

struct Outcome {
    int exit_code;
    std::string out, err;
};

Outcome run_on(Files& files, const std::vector<std::string>& arguments) {
    test::FakeClock clock;
    std::istringstream in;
    std::ostringstream out, err;
    cli::PlainTerminal terminal(in, out, 80);
    cli::Context context{out, err, files, clock, terminal};
    const int code = cli::run(arguments, context);
    return {code, out.str(), err.str()};
}

// Records as the text of a log, chained anew.
std::string log_of(const std::vector<job::Record>& records) {
    std::string text, previous;
    for (const job::Record& record : records) {
        const std::string line = job::to_line(record, previous);
        previous = job::checksum_of(line);
        text += line;
    }
    return text;
}

// One line as some later version might write it, its checksum right.
std::string foreign_line(const std::string& event) {
    const std::string text = "{\"sequence\":1,\"time\":\"2026-03-01T07:45:00Z\",\"event\":" + event + "}";
    return text.substr(0, text.size() - 1) + ",\"checksum\":\"" + sha256(text).substr(0, 16) + "\"}\n";
}

bool holds(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("review --html writes the page, says so, and leaves the job as it is") {
    test::FakeFiles files;
    const std::string job = test::read_file("data/demo/jobs/forestry-slew-loom.job");
    files.put("a.job", job);
    const Outcome outcome = run_on(files, {"review", "a.job", "--html", "a.html"});
    CHECK(outcome.exit_code == cli::Exit::fine);
    CHECK(outcome.out == "review written to a.html\n");
    CHECK(files.text_of("a.html").rfind("<!DOCTYPE html>", 0) == 0);
    CHECK(holds(files.text_of("a.html"), "the chain of checksums holds"));
    CHECK(files.text_of("a.job") == job);
    // With --json both.
    CHECK(run_on(files, {"review", "a.job", "--html", "b.html", "--json"}).out.front() == '{');
    CHECK(files.text_of("a.html") == files.text_of("b.html"));
}

TEST_CASE("review --html refuses to write over the job, by whatever name", "[posix]") {
    const test::TemporaryFolder folder;
    const std::string job = folder / "a.job";
    const std::string text = test::read_file("data/demo/jobs/minibus-lift-silent.job");
    std::ofstream(job) << text;
    std::filesystem::create_symlink(job, folder / "link.html");
    for (const std::string& out : {job, folder / "./a.job", folder / "link.html"}) {
        INFO(out);
        const Outcome outcome = run_on(system_files(), {"review", job, "--html", out});
        CHECK(outcome.exit_code == cli::Exit::unusable);
        CHECK(holds(outcome.err, "is the job itself: name another file behind --html"));
    }
    std::ifstream in(job);
    std::ostringstream after;
    after << in.rdbuf();
    CHECK(after.str() == text);
}

TEST_CASE("a log of a later version, or another file, is refused and no page is written") {
    test::FakeFiles files;
    files.put("later.job", foreign_line("{\"kind\":\"opened\",\"format\":\"halfsplit-job\",\"version\":2,"
                                        "\"harness_file\":\"a\",\"harness_text\":\"{}\",\"harness_sha256\":"
                                        "\"\",\"network\":\"main\",\"program_version\":\"9\"}"));
    files.put("kind.job", foreign_line("{\"kind\":\"hologram\"}"));
    files.put("letter.txt", "Dear lead,\nhere is the van.\n");
    files.put("harness.json", test::read_file("tests/data/small_chain.json"));
    files.put("picture.png", std::string("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16));
    files.put("empty.job", "");
    files.put("first.job", log_of(test::job_left_open()).substr(0, 100));
    for (const std::string name : {"later.job", "kind.job", "letter.txt", "harness.json", "picture.png",
                                   "empty.job", "first.job", "none.job"}) {
        for (const std::vector<std::string>& way :
             {std::vector<std::string>{}, {"--json"}, {"--html", "out.html"}}) {
            std::vector<std::string> words{"review", name};
            words.insert(words.end(), way.begin(), way.end());
            const Outcome outcome = run_on(files, words);
            INFO(outcome.err);
            CHECK(outcome.exit_code == cli::Exit::unusable);
            CHECK(holds(outcome.err, name));
            CHECK(outcome.out.empty());
            CHECK_FALSE(files.exists("out.html"));
        }
    }
    CHECK(holds(run_on(files, {"review", "later.job"}).err, "version"));
    CHECK(holds(run_on(files, {"review", "letter.txt"}).err, "does not begin as a job log does"));
}

TEST_CASE("a job whose harness text is not the one of its fingerprint gets its page, and the page says so") {
    auto records = test::job_left_open();
    auto opened = std::get<job::Opened>(records.front().event.body);
    opened.harness_sha256 = std::string(64, '0');
    records.front().event.body = opened;
    test::FakeFiles files;
    files.put("a.job", log_of(records));
    CHECK(run_on(files, {"review", "a.job", "--html", "a.html"}).exit_code == cli::Exit::fine);
    const std::string page = files.text_of("a.html");
    CHECK(holds(page, "NOTE: The harness text in record "));
    CHECK(holds(page, "BUT THE TEXT IN THE JOB HAS ANOTHER"));
    CHECK(holds(run_on(files, {"review", "a.job", "--json"}).out, "\"harness_matches\": false"));
}

TEST_CASE("a log of four thousand records is told whole as data, and its page says how much it leaves out",
          "[long]") {
    test::FakeFiles files;
    files.put("a.job", test::long_job(test::read_file("data/demo/jobs/minibus-lift-silent.job"), 4000));
    CHECK(run_on(files, {"review", "a.job", "--html", "a.html"}).exit_code == cli::Exit::fine);
    const auto data = nlohmann::json::parse(run_on(files, {"review", "a.job", "--json"}).out);
    const std::size_t steps = data.at("steps").size();
    std::size_t told = 0;  // all but advice
    for (const job::Record& record : job::read_log(files.text_of("a.job"), "a.job").records) {
        const job::Body& body = record.event.body;
        told += std::holds_alternative<job::Opened>(body) || std::holds_alternative<job::Recommended>(body)
                    ? 0
                    : 1;
    }
    CHECK(steps == told);
    REQUIRE(steps > report::most_steps);
    const std::string page = files.text_of("a.html");
    CHECK(page.size() < 1'000'000);
    CHECK(
        holds(page, "The first " + std::to_string(steps - report::most_steps) + " steps are left out here"));
}

TEST_CASE("a torn end is told on the page with its size") {
    test::FakeFiles files;
    files.put("a.job", log_of(test::job_left_open()) + "{\"sequence\":");
    CHECK(run_on(files, {"review", "a.job", "--html", "a.html"}).exit_code == cli::Exit::fine);
    CHECK(holds(files.text_of("a.html"), "12 bytes of a record cut short"));
}

namespace {

bool installed(const std::string& program) {
    return std::system(("command -v " + program + " >/dev/null 2>&1").c_str()) == 0;
}

std::string text_in(const std::string& path) {
    std::ifstream in(path);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

// Pages of the demo's jobs, and of a job left open; made once. Of the job with two faults the part up to
// where two are weighed at once: what follows looks the same and takes seconds.
class Pages {
  public:
    Pages() {
        std::ofstream(folder_ / "open.job") << log_of(test::job_left_open());
        std::istringstream log(test::read_file("data/demo/jobs/minibus-two-faults.job"));
        std::ofstream two(folder_ / "two.job");
        std::string line;
        for (int records = 0; records < 40 && std::getline(log, line); ++records) two << line << '\n';
        two.close();
        for (const std::string& job : {test::path_of("data/demo/jobs/minibus-lift-silent.job"),
                                       test::path_of("data/demo/jobs/forestry-slew-loom.job"),
                                       folder_ / "two.job", folder_ / "open.job"}) {
            names_.push_back(std::to_string(names_.size()) + ".html");
            const Outcome outcome =
                run_on(system_files(), {"review", job, "--html", folder_ / names_.back()});
            REQUIRE(outcome.exit_code == cli::Exit::fine);
        }
        REQUIRE(holds(text_in(folder_ / "2.html"), "two faults at once are weighed too"));
    }
    const test::TemporaryFolder& folder() const { return folder_; }
    const std::vector<std::string>& names() const { return names_; }

  private:
    test::TemporaryFolder folder_;
    std::vector<std::string> names_;
};

const Pages& pages_of_jobs() {
    static const Pages pages;
    return pages;
}

}  // namespace

TEST_CASE("a validator finds nothing in the pages of reviews", "[posix][long]") {
    if (!installed("tidy")) {
        WARN("tidy is not installed (the Debian package `tidy` has it): nothing was validated");
        return;
    }
    const test::TemporaryFolder& folder = pages_of_jobs().folder();
    const auto check = [&](const std::string& name) {
        const int status = std::system(
            ("tidy -quiet -errors '" + folder / name + "' 2>'" + folder / "said" + "' >/dev/null").c_str());
        INFO(name << ": " << text_in(folder / "said"));
        return status;
    };
    for (const std::string& name : pages_of_jobs().names()) {
        INFO(text_in(folder / "said"));
        CHECK(check(name) == 0);
    }
    std::ofstream(folder / "bad.html")
        << "<!DOCTYPE html><html><head><title>a</title></head><body><p><tabel>";
    CHECK(check("bad.html") != 0);
}

TEST_CASE("in a browser the pages of reviews ask for nothing and fit 360 pixels", "[posix][long]") {
    if (!installed("chromium")) {
        WARN("chromium is not installed (the Debian package `chromium` has it): no page was opened");
        return;
    }
    const test::TemporaryFolder& folder = pages_of_jobs().folder();
    std::vector<std::string> names = pages_of_jobs().names();
    // What must be found out: a page too wide, and one that asks for something.
    std::ofstream(folder / "wide.html") << "<!DOCTYPE html><title>a</title><div style='width:800px'>a</div>";
    std::ofstream(folder / "asks.html")
        << "<!DOCTYPE html><title>a</title><img src='http://asked.invalid/a.png' alt='a'>";
    names.insert(names.end(), {"wide.html", "asks.html"});
    std::string list;
    for (const std::string& name : names) list += "'" + name + "',";
    std::ofstream(folder / "frame.html")
        << "<!DOCTYPE html><meta charset=utf-8><body><script>for (const name of [" << list
        << "]) { const frame = document.createElement('iframe'); frame.style = 'border:0;width:360px'; "
           "frame.onload = () => { const said = document.createElement('p'); said.textContent = name + ' ' + "
           "frame.contentDocument.documentElement.scrollWidth + ' ' + "
           "frame.contentWindow.performance.getEntriesByType('resource').length; "
           "document.body.append(said); }; frame.src = name; document.body.append(frame); }</script>";
    const std::string command =
        "chromium --headless --no-sandbox --disable-gpu --hide-scrollbars "
        "--allow-file-access-from-files --host-resolver-rules='MAP * ~NOTFOUND' "
        "--user-data-dir='" +
        folder / "profile" + "' --virtual-time-budget=3000 --dump-dom 'file://" + folder / "frame.html" +
        "' >'" + folder / "dom" + "' 2>/dev/null";
    REQUIRE(std::system(command.c_str()) == 0);
    const std::string dom = text_in(folder / "dom");
    for (const std::string& name : names) {
        INFO(name << " in " << dom.substr(0, 2000));
        std::smatch found;
        REQUIRE(std::regex_search(dom, found, std::regex("<p>" + name + " ([0-9]+) ([0-9]+)</p>")));
        CHECK((std::stoi(found[1]) > 360) == (name == "wide.html"));
        CHECK((std::stoi(found[2]) > 0) == (name == "asks.html"));
    }
}
