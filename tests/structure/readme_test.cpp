// What README.md and the helps hold; that their commands work is held by documents_test.cpp.
#include "halfsplit/cli/run.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/program.hpp"

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
        const test::Said said = test::run_program({name, "--help"});
        REQUIRE(said.code == cli::Exit::fine);
        std::istringstream lines(said.out);
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
