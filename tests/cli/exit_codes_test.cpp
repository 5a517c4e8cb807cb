// The table of docs/reference/exit-codes.md against the program: each filled cell is brought about, no empty
// one is, and every command has its row.
#include "halfsplit/cli/run.hpp"

#include <CLI/CLI.hpp>

#include "cli/commands.hpp"
#include "support/catch.hpp"
#include "support/console_page.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"

#include <regex>
#include <set>
#include <sstream>

using namespace halfsplit;

namespace {

// A sound harness (small.json), one that cannot be used (bad.json), one with a warning (alike.json), one
// whose bus is nearly always sound, so that a rehearsal gives up (calm.json), a job, and files that are none.
class Workshop {
  public:
    Workshop() {
        const std::string small = test::read_file("tests/data/small_chain.json");
        files_.put("small.json", small);
        files_.put("bad.json", test::read_file("data/demo/broken/unknown-reference.json"));
        files_.put("alike.json", test::read_file("data/demo/broken/lines-alike.json"));
        const std::string assumptions = "\"assumptions\": { ";
        std::string calm = small;
        calm.insert(calm.find(assumptions) + assumptions.size(), "\"nothing_wrong\": 0.99, ");
        files_.put("calm.json", calm);
        files_.put("list.csv", "Wire,Signal,From,Pin,To,Pin\n1,LAMP,A,1,B,2\n");
        files_.put("bus.wires", "bus b\nGW 1/2 term\n1 LAMP 1/2 term\n");
        files_.put("open.wires", "bus b\nGW 1/2 term\n1 LAMP 1/2\n");
        files_.put("slip.wires", "bus b\nGW 1/2 teerm\n");
        files_.put("no.job", "no job\n");
        run({"note", "small.json", "--job", "a.job", "intake", "complaint=dead"});
    }

    int run(const std::vector<std::string>& arguments) {
        std::istringstream in;
        std::ostringstream out;
        cli::PlainTerminal terminal(in, out, 80);
        cli::Context context{out, out, files_, clock_, terminal};
        return cli::run(arguments, context);
    }

  private:
    test::FakeFiles files_;
    test::FakeClock clock_;
};

struct Case {
    std::vector<std::string> arguments;
    int code;
};

std::vector<Case> cases() {
    return {
        {{"hunt", "small.json", "--job", "b.job"}, 0},
        {{"hunt", "bad.json", "--job", "b.job"}, 2},
        {{"hunt", "small.json", "--job", "no.job"}, 2},
        {{"next", "small.json", "--job", "a.job"}, 0},
        {{"next", "small.json", "--job", "no.job"}, 2},
        {{"note", "small.json", "--job", "a.job", "remark", "rain"}, 0},
        {{"note", "small.json", "--job", "a.job", "nonsense"}, 2},
        {{"note", "small.json", "--job", "a.job", "0.4"}, 2},  // ohms before the safe state
        {{"review", "a.job"}, 0},
        {{"review", "no.job"}, 2},
        {{"review", "a.job", "a.job"}, 0},
        {{"review", "a.job", "no.job"}, 2},
        {{"check", "small.json"}, 0},
        {{"check", "alike.json"}, 1},
        {{"check", "alike.json", "--severity", "lines-alike=note"}, 0},
        {{"check", "bad.json"}, 1},
        {{"check", "missing.json", "bad.json"}, 2},
        {{"survey", "small.json"}, 0},
        {{"survey", "bad.json"}, 2},
        {{"survey", "small.json", "bad.json", "--format", "csv"}, 1},
        {{"survey", "small.json", "missing.json", "--format", "csv"}, 2},
        {{"card", "small.json"}, 0},
        {{"card", "--job", "no.job"}, 2},
        {{"draw", "small.json", "--text"}, 0},
        {{"draw", "bad.json", "--text"}, 2},
        {{"draft", "bus.wires"}, 0},
        {{"draft", "open.wires"}, 1},
        {{"draft", "slip.wires"}, 2},
        {{"draft", "list.csv"}, 2},
        {{"expect", "small.json", "--between", "X1.b:4", "clip"}, 0},
        {{"expect", "small.json", "--between", "X9.b:4", "clip"}, 2},
        {{"rehearse", "small.json", "--fault", "X1:apart"}, 0},
        {{"rehearse", "calm.json", "--fault", "T1:joint-h@1"}, 1},
        {{"rehearse", "small.json", "--fault", "X9:apart"}, 2},
    };
}

// By command and code: whether the table says that it can happen.
std::set<std::pair<std::string, int>> told() {
    static const std::regex row(R"(^\| `([a-z]+)` \|([^|]*)\|([^|]*)\|([^|]*)\|$)");
    std::set<std::pair<std::string, int>> cells;
    std::smatch match;
    for (const std::string& line : test::lines_of_text(test::read_file("docs/reference/exit-codes.md"))) {
        if (!std::regex_match(line, match, row)) continue;
        for (int code = 0; code < 3; ++code) {
            const std::string cell = match[2 + static_cast<std::size_t>(code)];
            if (cell.find_first_not_of(' ') != std::string::npos) cells.emplace(match[1], code);
        }
    }
    return cells;
}

std::set<std::string> commands_of_program() {
    test::FakeFiles files;
    test::FakeClock clock;
    std::istringstream in;
    std::ostringstream out;
    cli::PlainTerminal terminal(in, out, 80);
    cli::Context context{out, out, files, clock, terminal};
    CLI::App program;
    cli::Chosen chosen;
    cli::set_up(program, context, chosen);
    std::set<std::string> names;
    for (const CLI::App* command : program.get_subcommands([](const CLI::App*) { return true; }))
        names.insert(command->get_name());
    return names;
}

}  // namespace

TEST_CASE("each exit code of the table can be brought about, and no other") {
    Workshop workshop;
    std::set<std::pair<std::string, int>> found;
    for (const Case& one : cases()) {
        INFO(one.arguments[0] << " " << one.arguments[1]);
        CHECK(workshop.run(one.arguments) == one.code);
        found.emplace(one.arguments[0], one.code);
    }
    CHECK(found == told());
}

TEST_CASE("every command has its row of exit codes, and ends with 2 for an option that it does not know") {
    std::set<std::string> rows;
    for (const auto& [command, code] : told()) rows.insert(command);
    CHECK(rows == commands_of_program());
    Workshop workshop;
    for (const std::string& command : rows) {
        INFO(command);
        CHECK(workshop.run({command, "--no-such-option"}) == cli::Exit::unusable);
    }
    CHECK(workshop.run({"chek"}) == cli::Exit::unusable);
}
