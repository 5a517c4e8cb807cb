// The draft command on wire data: what it writes, what it says, and that nothing is written where it refuses.
#include "halfsplit/cli/run.hpp"
#include "halfsplit/harness/read.hpp"

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"

#include <filesystem>
#include <regex>
#include <set>
#include <sstream>

using namespace halfsplit;

namespace {

struct DraftBench {
    test::FakeFiles files;
    std::string out, err;

    DraftBench() {
        files.put("loom.kbl", test::read_file("data/demo/trailer.kbl"));
        files.put("loom.csv", test::read_file("tests/data/wires/trailer.csv"));
    }

    int run(std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), "draft");
        std::istringstream in;
        std::ostringstream said, warned;
        test::FakeClock clock;
        cli::PlainTerminal terminal(in, said, 80);
        cli::Context context{said, warned, files, clock, terminal};
        const int code = cli::run(arguments, context);
        out = said.str();
        err = warned.str();
        return code;
    }
};

std::set<std::string> matches(const std::string& text, const std::regex& pattern) {
    std::set<std::string> found;
    for (std::sregex_iterator it(text.begin(), text.end(), pattern); it != std::sregex_iterator(); ++it)
        found.insert((*it)[1]);
    return found;
}

}  // namespace

TEST_CASE("draft writes a harness file that check finds sound, and says what it assumed and left out",
          "[kbl]") {
    DraftBench bench;
    CHECK(bench.run({"loom.kbl", "--network", "rear=LAMP_L", "-o", "rear.json"}) == cli::Exit::fine);
    CHECK(bench.out.empty());
    CHECK(bench.err.find("  length of wire 3: 1 m\n") != std::string::npos);
    CHECK(bench.err.find("  wire 13: no connection says where it goes\n") != std::string::npos);
    const harness::ReadResult read = harness::read_harness(bench.files.text_of("rear.json"), "rear.json");
    CHECK(read.findings.empty());
    CHECK(read.harness);
    CHECK(bench.run({"loom.csv", "--network", "GND"}) == cli::Exit::findings);  // cells that are not kept
    CHECK(harness::read_harness(bench.out, "out").harness);
}

TEST_CASE("draft without a network lists the signals and writes nothing", "[kbl]") {
    DraftBench bench;
    CHECK(bench.run({"loom.kbl", "-o", "x.json"}) == cli::Exit::unusable);
    CHECK(bench.err.find("Signals, most wires first:\n  BUS_H: 2 wires, X1-plug, AIR, SW\n") == 0);
    CHECK(bench.out.empty());
    CHECK_FALSE(bench.files.exists("x.json"));
}

TEST_CASE("draft that refuses writes nothing, neither a file nor part of one", "[kbl]") {
    DraftBench bench;
    bench.files.put("bomb.kbl", "<!DOCTYPE a [<!ENTITY b \"c\">]><KBL_container/>");
    bench.files.put("huge.kbl", std::string(harness::largest_file + 1, ' '));
    bench.files.put("latin.csv", "from;to\nZ\xFCnd:1;B:1\n");
    bench.files.put("x.json", "as before");
    for (const std::vector<std::string>& arguments :
         {std::vector<std::string>{"bomb.kbl", "--network", "A"},
          {"huge.kbl", "--network", "A"},
          {"latin.csv", "--network", "A"},
          {"none.kbl", "--network", "A"},
          {"loom.kbl", "--network", "NONE"},
          {"loom.csv", "--network", "GND", "--columns", "from=none"}}) {
        std::vector<std::string> all = arguments;
        all.insert(all.end(), {"-o", "x.json"});
        INFO(arguments.front());
        CHECK(bench.run(all) == cli::Exit::unusable);
        CHECK(bench.err.find("error: ") != std::string::npos);
        CHECK(bench.out.empty());
        CHECK(bench.files.text_of("x.json") == "as before");
    }
    bench.run({"huge.kbl", "--network", "A"});
    CHECK(bench.err.find("larger than 64 MB") != std::string::npos);
}

TEST_CASE("a long list of wires left out is told by reason") {
    DraftBench bench;
    std::string text = "wire;signal;from;to\n";
    for (int wire = 0; wire < 500; ++wire) {
        const std::string number = std::to_string(wire);
        text += number + ";S" + number + ";A:" + number + ";B:" + number + "\n";
    }
    bench.files.put("long.csv", text);
    CHECK(bench.run({"long.csv", "--network", "S7"}) == cli::Exit::fine);
    CHECK(bench.err.find("  wire 0 (S0), wire 1 (S1), wire 2 (S2), wire 3 (S3) and 495 more") !=
          std::string::npos);
}

TEST_CASE("the findings of wire data are those that docs/reference/findings.md lists") {
    const std::regex call(R"re((?:error|warning)\(\s*"([a-z]+(?:-[a-z]+)+)")re");
    std::set<std::string> said;
    for (const auto& entry : std::filesystem::directory_iterator(test::path_of("src/draft"))) {
        const std::string name = entry.path().filename().string();
        if (std::regex_search(name, std::regex("^(csv|kbl|from|follow)")))
            said.merge(matches(test::read_file("src/draft/" + name), call));
    }
    const std::string page = test::read_file("docs/reference/findings.md");
    const std::size_t start = page.find("## Wire data");
    REQUIRE(start != std::string::npos);
    const std::string section = page.substr(start, page.find("\n## ", start + 1) - start);
    CHECK(said == matches(section, std::regex(R"re(\n\| `([a-z-]+)` \|)re")));
}

// A wire list whose two lines of a hop differ in length makes runs of one line each, which no sheet can say.
TEST_CASE("why a sheet could not be read back was told with question marks for its line ends") {
    DraftBench bench;
    CHECK(bench.run({"loom.csv", "--network", "body=BUS-H,BUS-L", "-o", "van.json"}) == cli::Exit::findings);
    CHECK(bench.run({"--from", "van.json", "-o", "van.wires"}) == cli::Exit::findings);
    CHECK(bench.err.find("cannot be read back") != std::string::npos);
    CHECK(bench.err.find("line 5 of the sheet: GW is not connected to AIR:7/8") != std::string::npos);
    CHECK(bench.err.find('?') == std::string::npos);
}
