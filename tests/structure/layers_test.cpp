// The way data flows, held: includes go downward only, and heavy headers stay out of the public ones.
#include "support/catch.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

// From the ground up.
const std::vector<std::string> layers{"base",   "harness",   "drawing", "draft",  "electrics",
                                      "access", "diagnosis", "plan",    "matrix", "job",
                                      "advice", "session",   "report",  "cli"};

std::size_t rank(const std::string& layer) {
    return static_cast<std::size_t>(std::find(layers.begin(), layers.end(), layer) - layers.begin());
}

std::vector<fs::path> sources(const std::string& folder) {
    std::vector<fs::path> result;
    for (const auto& entry : fs::recursive_directory_iterator(halfsplit::test::path_of(folder))) {
        const auto extension = entry.path().extension();
        if (extension == ".hpp" || extension == ".cpp") result.push_back(entry.path());
    }
    return result;
}

std::vector<std::string> includes(const fs::path& file) {
    static const std::regex pattern(R"re(^\s*#include\s+["<]([^">]+)[">])re");
    std::ifstream in(file);
    std::vector<std::string> result;
    std::string line;
    std::smatch match;
    while (std::getline(in, line)) {
        if (std::regex_search(line, match, pattern)) result.push_back(match[1]);
    }
    return result;
}

// "halfsplit/plan/exact.hpp" or "plan/search.hpp" -> "plan"; empty for what is not ours.
std::string layer_of(const std::string& include) {
    const std::string path = include.rfind("halfsplit/", 0) == 0 ? include.substr(10) : include;
    const std::string layer = path.substr(0, path.find('/'));
    return rank(layer) < layers.size() && path.find('/') != std::string::npos ? layer : "";
}

}  // namespace

TEST_CASE("the top level of the project holds what it is to hold") {
    const std::vector<std::string> expected{"CMakeLists.txt", "DEVELOPERS.md", "README.md", "data",
                                            "docs",           "include",       "src",       "tests"};
    std::vector<std::string> found;
    for (const auto& entry : fs::directory_iterator(halfsplit::test::path_of("."))) {
        const std::string name = entry.path().filename().string();
        if (name.front() != '.') found.push_back(name);
    }
    std::sort(found.begin(), found.end());
    REQUIRE(found == expected);
}

TEST_CASE("no layer includes one above it") {
    std::size_t checked = 0;
    for (const std::string folder : {"include/halfsplit", "src"}) {
        for (const fs::path& file : sources(folder)) {
            const fs::path within = fs::relative(file, halfsplit::test::path_of(folder));
            const std::string own = *within.begin();
            if (own == "main.cpp" || own == "packaging") continue;  // use them, are none
            INFO(file.string());
            REQUIRE(rank(own) < layers.size());
            for (const std::string& include : includes(file)) {
                const std::string layer = layer_of(include);
                INFO("includes " << include);
                if (layer.empty()) continue;
                REQUIRE(rank(layer) <= rank(own));
                ++checked;
            }
        }
    }
    REQUIRE(checked > 100);
}

TEST_CASE("the planner knows no harness") {
    for (const std::string folder : {"include/halfsplit/plan", "src/plan"}) {
        for (const fs::path& file : sources(folder)) {
            for (const std::string& include : includes(file)) {
                INFO(file.string() << " includes " << include);
                REQUIRE(layer_of(include) != "harness");
                REQUIRE(include != "halfsplit/access/costs.hpp");
            }
        }
    }
}

TEST_CASE("heavy headers stay out of public headers") {
    const std::vector<std::string> heavy{"nlohmann/json.hpp", "fmt/",     "Eigen/",     "CLI/",
                                         "valijson/",         "iostream", "histedit.h", "pugixml.hpp",
                                         "unistd.h",          "sys/",     "fcntl.h",    "windows.h"};
    for (const fs::path& file : sources("include/halfsplit")) {
        for (const std::string& include : includes(file)) {
            INFO(file.string() << " includes " << include);
            for (const std::string& name : heavy) REQUIRE(include.rfind(name, 0) != 0);
        }
    }
}

TEST_CASE("system calls live in files that end in the system's name, and each system has them all") {
    std::set<std::string> posix, windows;
    for (const fs::path& file : sources("src")) {
        const std::string name = file.stem().string();
        const std::size_t end = name.rfind('_');
        const std::string system = end == std::string::npos ? "" : name.substr(end + 1);
        if (system == "posix" && file.extension() == ".cpp") posix.insert(name.substr(0, end));
        if (system == "windows" && file.extension() == ".cpp") windows.insert(name.substr(0, end));
        for (const std::string& include : includes(file)) {
            INFO(file.string() << " includes " << include);
            const bool of_posix =
                include == "unistd.h" || include == "fcntl.h" || include.rfind("sys/", 0) == 0;
            if (of_posix) CHECK((system == "posix" || system == "windows"));
            if (include == "windows.h" || include == "io.h") CHECK(system == "windows");
        }
    }
    // What libedit alone needs, which Windows does not have: keys, with signals in between.
    CHECK(posix == std::set<std::string>{"digest", "files", "line_keys", "process"});
    // What Windows alone needs: text in UTF-16, lists of who may do what.
    CHECK(windows == std::set<std::string>{"access", "digest", "files", "process", "wide"});
}
