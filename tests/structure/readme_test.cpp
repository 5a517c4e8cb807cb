// The commands that README.md shows, run in its order: each must work as it stands there.
#include "halfsplit/cli/run.hpp"

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"

#include <sstream>
#include <vector>

using namespace halfsplit;

TEST_CASE("every command line of the README works, in its order", "[long]") {
    test::FakeFiles files;
    test::FakeClock clock;
    for (const std::string path :
         {"data/demo/minibus.json", "data/demo/minibus.wires", "data/demo/library/minibus.json"})
        files.put(path, test::read_file(path));
    std::istringstream readme(test::read_file("README.md"));
    std::string line;
    std::size_t commands = 0;
    while (std::getline(readme, line)) {
        const std::string start = "    halfsplit ";
        if (line.rfind(start, 0) != 0) continue;
        std::istringstream words(line.substr(start.size()));
        std::vector<std::string> arguments;
        for (std::string word; words >> word;) arguments.push_back(word);
        std::istringstream in;
        std::ostringstream out;
        std::ostringstream err;
        cli::PlainTerminal terminal(in, out, 80);
        cli::Context context{out, err, files, clock, terminal};
        INFO(line << "\n" << err.str());
        REQUIRE(cli::run(arguments, context) == cli::Exit::fine);
        ++commands;
    }
    REQUIRE(commands >= 8);
}

TEST_CASE("the documents that the README names are there, and every command is in it") {
    const std::string readme = test::read_file("README.md");
    for (const std::string name : {"hunt", "next", "note", "review", "check", "survey", "expect", "rehearse",
                                   "card", "draft", "draw"}) {
        INFO(name);
        REQUIRE(readme.find("| `" + name + " ") != std::string::npos);
    }
    for (const std::string path :
         {"docs/reference/harness-format.md", "docs/reference/wire-sheet.md", "docs/reference/findings.md",
          "docs/reference/check.md", "docs/reference/job-format.md", "docs/reference/diagnosis.md",
          "docs/reference/distance.md", "docs/reference/planning.md", "docs/reference/card.md",
          "docs/reference/review.md", "docs/reference/survey.md", "docs/reference/matrix.md",
          "docs/reference/draw.md", "docs/reference/shop.md", "docs/reference/wire-sheet.md",
          "docs/reference/wire-data.md", "docs/development/benchmarks.md", "DEVELOPERS.md"}) {
        INFO(path);
        REQUIRE(readme.find(path) != std::string::npos);
        REQUIRE_NOTHROW(test::read_file(path));
    }
}

TEST_CASE("the help of each command fits one screen and holds two examples") {
    for (const std::string name : {"hunt", "next", "note", "review", "check", "survey", "expect", "rehearse",
                                   "card", "draft", "draw"}) {
        test::FakeFiles files;
        test::FakeClock clock;
        std::istringstream in;
        std::ostringstream out;
        cli::PlainTerminal terminal(in, out, 80);
        cli::Context context{out, out, files, clock, terminal};
        REQUIRE(cli::run({name, "--help"}, context) == cli::Exit::fine);
        std::istringstream lines(out.str());
        std::size_t count = 0;
        std::size_t examples = 0;
        for (std::string line; std::getline(lines, line); ++count) {
            if (line.rfind("  halfsplit " + name, 0) == 0) ++examples;
        }
        INFO(name);
        REQUIRE(count <= 26);  // at a screen of 30 lines all of it is seen
        REQUIRE(examples == 2);
    }
}
