// `check` as scripts wait for it: a thousand files, two threads, a file of a hundred thousand parts. Prints
// ratios of one run. Build with -DHALFSPLIT_BENCHMARKS=ON, run `halfsplit_check_benchmark`.
#include "halfsplit/harness/read.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/large_bus.hpp"

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace halfsplit;
namespace fs = std::filesystem;

namespace {

constexpr int runs = 5;
constexpr int files = 1000;

class Folder {
  public:
    Folder() : path_(fs::temp_directory_path() / "halfsplit-check-benchmark") {
        fs::remove_all(path_);
        fs::create_directories(path_);
    }
    ~Folder() { fs::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    const fs::path& path() const { return path_; }
    void put(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / name, std::ios::binary) << text;
    }

  private:
    fs::path path_;
};

struct Cost {
    double processor_s = 1e9, wall_s = 1e9, memory_mb = 0;
};

double seconds_of(const timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) * 1e-6;
}

double now() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// One process of its own, whose output nobody reads.
Cost run_check(const std::string& path, const std::string& threads) {
    std::fflush(stdout);  // or the child would print it once more
    const double start = now();
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        if (std::freopen("/dev/null", "w", stdout) != nullptr)
            execl(HALFSPLIT_PROGRAM, HALFSPLIT_PROGRAM, "check", path.c_str(), "-j", threads.c_str(),
                  nullptr);
        std::_Exit(3);
    }
    int status = 0;
    rusage used{};
    REQUIRE(wait4(child, &status, 0, &used) == child);
    REQUIRE(WIFEXITED(status));
    REQUIRE(WEXITSTATUS(status) <= 1);  // a bus of so many parts is longer than any may be
    return {seconds_of(used.ru_utime) + seconds_of(used.ru_stime), now() - start,
            static_cast<double>(used.ru_maxrss) / 1024};
}

Cost least(const Cost& a, const Cost& b) {
    return {std::min(a.processor_s, b.processor_s), std::min(a.wall_s, b.wall_s),
            std::max(a.memory_mb, b.memory_mb)};
}

double parse_all(const std::string& text) {
    const std::clock_t start = std::clock();
    std::size_t members = 0;
    for (int i = 0; i < files; ++i) members += nlohmann::json::parse(text).size();
    REQUIRE(members > 0);
    return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

}  // namespace

TEST_CASE("a thousand files of the minibus's size") {
    const Folder folder;
    std::string whole;  // with the libraries that it includes, as one file
    harness::read_harness_file(system_files(), test::path_of("data/demo/minibus.json"), &whole);
    const std::string text = nlohmann::json::parse(whole).dump(1);
    for (int i = 0; i < files; ++i) folder.put("van" + std::to_string(i) + ".json", text);
    double parsing = 1e9;
    Cost one, two;
    for (int i = 0; i < runs; ++i) {  // turn by turn, so that all see the same machine
        parsing = std::min(parsing, parse_all(text));
        one = least(one, run_check(folder.path(), "1"));
        two = least(two, run_check(folder.path(), "2"));
    }
    fmt::print(
        "{} files of {} bytes, least of {}: parsing alone {:.3f} s; check {:.3f} s of the processor, "
        "ratio {:.2f}; wall {:.3f} s with one thread, {:.3f} s with two, ratio {:.2f}\n",
        files, text.size(), runs, parsing, one.processor_s, one.processor_s / parsing, one.wall_s, two.wall_s,
        one.wall_s / two.wall_s);
}

TEST_CASE("files of ever more parts") {
    const Folder folder;
    for (const std::size_t points : {12'500, 25'000, 50'000, 100'000}) {
        const std::string text = test::large_bus_json(points, test::Sections::Connectors);
        folder.put("large.json", text);
        Cost cost;
        for (int i = 0; i < 3; ++i)
            cost = least(cost, run_check((folder.path() / "large.json").string(), "1"));
        fmt::print(
            "some {} parts, {:.1f} MB: {:.2f} s of the processor, {:.0f} MB of memory; {:.1f} us a part\n",
            points, static_cast<double>(text.size()) * 1e-6, cost.processor_s, cost.memory_mb,
            cost.processor_s * 1e6 / static_cast<double>(points));
    }
}
