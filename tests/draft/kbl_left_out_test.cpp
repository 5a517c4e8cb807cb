// Only in a build without KBL.
#include "halfsplit/cli/run.hpp"

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"

#include <sstream>

using namespace halfsplit;

TEST_CASE("a build without harness lists says what one is, what to do, and in --version that it has none") {
    test::FakeFiles files;
    files.put("loom.kbl", test::read_file("data/demo/trailer.kbl"));
    std::istringstream in;
    std::ostringstream out, err;
    test::FakeClock clock;
    cli::PlainTerminal terminal(in, out, 80);
    cli::Context context{out, err, files, clock, terminal};
    CHECK(cli::run({"draft", "loom.kbl", "--network", "LAMP_L", "-o", "lamp.json"}, context) ==
          cli::Exit::unusable);
    CHECK_FALSE(files.exists("lamp.json"));
    CHECK(err.str().find("loom.kbl: error: this is XML, as harness lists (KBL) are, and this build of "
                         "halfsplit reads none [kbl-left-out]") == 0);
    CHECK(err.str().find("Next: export the loom as a wire list (docs/reference/wire-data.md)") !=
          std::string::npos);
    CHECK(cli::run({"--version"}, context) == cli::Exit::fine);
    CHECK(out.str().find("\nharness lists (KBL): left out of this build\n") != std::string::npos);
}
