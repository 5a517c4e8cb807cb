// The program as its users wait for it: whole processes on real files, and the loading of a large harness.
#include "halfsplit/base/files.hpp"
#include "halfsplit/harness/read.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"

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
