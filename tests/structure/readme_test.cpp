// What README.md and the helps hold; that their commands work is held by documents_test.cpp.
#include "halfsplit/cli/run.hpp"

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"

#include <sstream>

using namespace halfsplit;

TEST_CASE("every command is in the README") {
    const std::string readme = test::read_file("README.md");
    for (const std::string name : {"hunt", "next", "note", "review", "check", "survey", "expect", "rehearse",
                                   "card", "draft", "draw"}) {
        INFO(name);
        REQUIRE(readme.find("| `" + name + " ") != std::string::npos);
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
