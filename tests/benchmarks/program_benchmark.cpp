// The program as its users wait for it: whole processes on real files, and the loading of a large harness.
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/base/files.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/report/review.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/long_job.hpp"

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

using namespace halfsplit;
namespace fs = std::filesystem;

namespace {

class Folder {
  public:
    Folder() : path_(fs::temp_directory_path() / "halfsplit-benchmark") {
        fs::remove_all(path_);
        fs::create_directories(path_);
    }
    ~Folder() { fs::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string operator/(const std::string& name) const { return (path_ / name).string(); }

  private:
    fs::path path_;
};

int run(const std::string& arguments) {
    return std::system((std::string(HALFSPLIT_PROGRAM) + " " + arguments + " >/dev/null").c_str());
}

// A chain of `parts` runs, connectors and splices on one network.
std::string long_chain(std::size_t parts) {
    using nlohmann::json;
    json file = json::parse(test::read_file("tests/data/small_chain.json"));
    json& runs = file["runs"];
    json& connectors = file["connectors"];
    // Lengthens the run between X2 and M2 by pieces of connector and wire.
    json last = runs[5];
    runs.erase(5);
    std::string from = "X2.b";
    for (std::size_t i = 0; i < parts / 2; ++i) {
        const std::string id = "Y" + std::to_string(i);
        connectors.push_back({{"id", id},
                              {"access", {{"place", "rear"}}},
                              {"halves", {{"a", json::object()}, {"b", json::object()}}}});
        json run = last;
        run["id"] = "V" + std::to_string(i);
        run["length_m"] = 0.01;
        for (const auto& [line, cavity] : {std::pair{"h", "1"}, std::pair{"l", "2"}}) {
            run[line]["from"] = from + ":" + cavity;
            run[line]["to"] = id + ".a:" + cavity;
        }
        runs.push_back(run);
        from = id + ".b";
    }
    last["h"]["from"] = from + ":1";
    last["l"]["from"] = from + ":2";
    runs.push_back(last);
    return file.dump(1);
}

}  // namespace

TEST_CASE("whole processes on the minibus") {
    const Folder folder;
    const std::string harness = test::path_of("data/demo/minibus.json");
    const std::string job = folder / "base.job";
    const std::string options = harness + " --job " + job;
    REQUIRE(run("note " + options + " intake complaint=dead") == 0);
    REQUIRE(run("note " + options + " answers silent STEP,HTR,FLK,BLT,LIFT,REAR,PARK") == 0);
    REQUIRE(run("note " + options + " safe ignition=off bus=asleep battery=off waited=10") == 0);

    BENCHMARK("--version: what a process costs by itself") {
        return run("--version");
    };
    BENCHMARK_ADVANCED("next: belief and plan of the first reading")(Catch::Benchmark::Chronometer meter) {
        int copy = 0;
        std::vector<std::string> commands;
        for (int i = 0; i < meter.runs(); ++i) {
            const std::string own = folder / ("next" + std::to_string(i) + ".job");
            fs::copy_file(job, own, fs::copy_options::overwrite_existing);
            commands.push_back("next " + harness + " --job " + own);
        }
        meter.measure([&](int i) { return copy += run(commands[static_cast<std::size_t>(i)]); });
    };
    const std::string noted = folder / "noted.job";
    fs::copy_file(job, noted);
    BENCHMARK("note: one remark, written and synced") {
        return run("note " + harness + " --job " + noted + " remark x");
    };
}

TEST_CASE("loading a harness of 5,000 parts") {
    const std::string text = long_chain(5000);
    REQUIRE(harness::read_harness(text, "long.json").harness->parts.size() > 5000);
    BENCHMARK("read and check") {
        return harness::read_harness(text, "long.json").findings.size();
    };
}

namespace {

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// Each once: the longest takes a quarter of a minute.
void time_review(const std::string& log, const std::string& name) {
    const auto contents = job::read_log(log, name);
    const auto subject = advice::subject_of(contents.records);
    auto start = std::chrono::steady_clock::now();
    const auto review = advice::retrospect(contents, subject);
    const double weighed = seconds_since(start);
    start = std::chrono::steady_clock::now();
    const std::string page = report::review_html(review, subject.harness, subject.network);
    std::printf("%s: %zu records, review %.3f s, its page %.3f s, %zu kB\n", name.c_str(),
                contents.records.size(), weighed, seconds_since(start), page.size() / 1000);
}

}  // namespace

TEST_CASE("reviews and their pages") {
    for (const std::string name :
         {"minibus-lift-silent.job", "forestry-slew-loom.job", "minibus-two-faults.job"})
        time_review(test::read_file("data/demo/jobs/" + name), name);
    const std::string log = test::read_file("data/demo/jobs/forestry-slew-loom.job");
    for (const std::size_t records : {500, 10'000})
        time_review(test::long_job(log, records), "forestry, long");
}
