// The command line as it is typed on Windows.
#include "halfsplit/cli/run.hpp"

#include "support/catch.hpp"
#include "support/disk.hpp"
#include "support/fake_clock.hpp"
#include "support/files_of_tests.hpp"
#include "support/process.hpp"

#include <filesystem>
#include <sstream>

using namespace halfsplit;
using test::TemporaryFolder;

namespace {

struct Said {
    int code;
    std::string out;
};

Said run(const std::vector<std::string>& arguments) {
    std::istringstream in;
    std::ostringstream out;
    test::FakeClock clock;
    cli::PlainTerminal terminal(in, out, 80);
    cli::Context context{out, out, system_files(), clock, terminal};
    const int code = cli::run(arguments, context);
    return {code, out.str()};
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a folder, a pattern and a file with backslashes are found, and shown with slashes") {
    const TemporaryFolder folder;
    std::filesystem::create_directory(folder.path() / "fleet");
    const std::string small_chain = test::read_file("tests/data/small_chain.json");
    test::put(folder / "fleet/a.json", small_chain);
    test::put(folder / "fleet/b.json", small_chain);
    const std::string windows = folder.path().string();  // C:\...
    REQUIRE(holds(windows, "\\"));
    for (const std::string& named :
         {windows + "\\fleet", windows + "\\fleet\\*.json", windows + "\\**\\?.json"}) {
        const Said said = run({"check", named});
        INFO(named << "\n" << said.out);
        CHECK(said.code == cli::Exit::fine);
        CHECK(holds(said.out, "2 files, 0 with errors"));
        CHECK(holds(said.out, folder / "fleet/a.json"));
    }
    const Said sarif = run({"check", windows + "\\fleet\\none.json", "--format", "sarif"});
    CHECK(holds(sarif.out, "\"file:///" + windows.substr(0, 1) + "%3A/"));
}

TEST_CASE("the nearest name is found in a folder that is named with backslashes") {
    const TemporaryFolder folder;
    test::put(folder / "minibus.json", test::read_file("tests/data/small_chain.json"));
    const Said said = run({"check", folder.path().string() + "\\minibsu.json"});
    CHECK(said.code == cli::Exit::unusable);
    CHECK(holds(said.out, "minibus.json\"."));
}

TEST_CASE("a drawing does not take the place of its harness, whatever capitals it is named with") {
    const TemporaryFolder folder;
    const std::string text = test::read_file("tests/data/small_chain.json");
    test::put(folder / "van.json", text);
    CHECK(holds(run({"draw", folder / "van.json", "-o", folder / "VAN.json"}).out,
                "would be written over itself"));
    CHECK(test::read(folder / "van.json") == text);
}

TEST_CASE("the program takes arguments in every script, and writes lines as they are") {
    const TemporaryFolder folder;
    const std::string name = folder /
                             "\xC5\x81\xC3\xB3"
                             "d\xC5\xBA \xE8\xBB\x8A.json";
    system_files().write(name, test::read_file("tests/data/small_chain.json"));
    const std::string said = test::Process({HALFSPLIT_PROGRAM, "check", name}, "").said();
    CHECK(holds(said, name + ": sound"));
    CHECK_FALSE(holds(said, "\r"));
}
