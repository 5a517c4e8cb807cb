// Manual pages and completions, held against the help that people read and the shells that take them.
#include "halfsplit/cli/run.hpp"

#include "cli/guide/completions.hpp"
#include "cli/guide/man_page.hpp"
#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"
#include "support/shell.hpp"
#include "support/temporary_folder.hpp"

#include <fstream>
#include <regex>
#include <set>
#include <sstream>

using namespace halfsplit;

namespace {

std::string help_of(const std::vector<std::string>& arguments) {
    test::FakeFiles files;
    test::FakeClock clock;
    std::istringstream in;
    std::ostringstream out, err;
    cli::PlainTerminal terminal(in, out, 80);
    cli::Context context{out, err, files, clock, terminal};
    REQUIRE(cli::run(arguments, context) == cli::Exit::fine);
    return out.str();
}

// "-o" and "--output" of a line "  -o,--output FILE".
std::set<std::string> options_in(const std::string& help) {
    static const std::regex line("(^|\n)  (-[a-z-]+(,-[a-z-]+)*)"), name("-[a-z-]+");
    std::set<std::string> names;
    for (std::sregex_iterator at(help.begin(), help.end(), line), end; at != end; ++at) {
        const std::string part = at->str(2);
        for (std::sregex_iterator one(part.begin(), part.end(), name); one != end; ++one)
            names.insert(one->str());
    }
    return names;
}

std::string unescaped(const std::string& page) {
    return std::regex_replace(page, std::regex(R"(\\-)"), "-");
}

void put(const std::string& path, const std::string& text) {
    std::ofstream(path) << text;
}

// Folders and files as they may lie about where somebody types.
struct Workplace {
    test::TemporaryFolder folder;

    Workplace() {
        std::filesystem::create_directory(folder / "jobs");
        for (const std::string name :
             {"minibus.json", "minibus.wires", "monday.job", "my van.json", "jobs/tuesday.job"})
            put(folder / name, "");
    }
    // What the script of this shell offers, by line, in order.
    std::set<std::string> offered(const std::string& command) const {
        const test::Ran ran = test::run_shell("cd '" + folder.path().string() + "' && " + command);
        std::set<std::string> lines;
        std::istringstream stream(ran.out);
        for (std::string line; std::getline(stream, line);) lines.insert(line.substr(0, line.find('\t')));
        return lines;
    }
};

using Words = std::set<std::string>;

}  // namespace

TEST_CASE("every command has a manual page with every option of its help") {
    const cli::GuideProgram program = cli::guide_model();
    const std::string main_help = help_of({"--help"}), main_page = unescaped(cli::man_page(program));
    for (const std::string& option : options_in(main_help))
        CHECK(main_page.find("\\fB" + option + "\\fR") != std::string::npos);
    REQUIRE(program.commands.size() == 11);
    std::size_t options = 0;
    for (const cli::GuideCommand& command : program.commands) {
        INFO(command.name);
        CHECK(main_help.find("\n  " + command.name + " ") != std::string::npos);
        CHECK(main_page.find("\\fB" + command.name + "\\fR") != std::string::npos);
        const std::string help = help_of({command.name, "--help"}),
                          page = unescaped(cli::man_page(program, command));
        for (const std::string& option : options_in(help)) {
            INFO(option);
            CHECK(page.find("\\fB" + option + "\\fR") != std::string::npos);
            ++options;
        }
        REQUIRE_FALSE(command.examples.empty());
        for (const std::string& example : command.examples) {
            CHECK(help.find("  " + example + "\n") != std::string::npos);
            CHECK(page.find("\\fB" + example + "\\fR") != std::string::npos);
        }
        for (const std::string section : {"EXIT STATUS", "ENVIRONMENT", "FILES", "EXAMPLES", "SEE ALSO"})
            CHECK(page.find(".SH " + section + "\n") != std::string::npos);
    }
    CHECK(options > 80);
}

TEST_CASE("the codes of a help are the exit status of its page, one by one") {
    for (const cli::GuideCommand& command : cli::guide_model().commands) {
        if (command.name != "draft") continue;
        CHECK(command.exits ==
              std::vector<std::string>{"0 written", "1 written, with findings", "2 nothing written"});
        CHECK(command.notes ==
              std::vector<std::string>{
                  "Sheets: docs/reference/wire-sheet.md. Wire data: docs/reference/wire-data.md"});
    }
}

TEST_CASE("the formatter of manual pages has nothing to say against them") {
    if (!test::has_program("groff")) {
        WARN("no groff here: the pages were not formatted");
        return;
    }
    const cli::GuideProgram program = cli::guide_model();
    const test::TemporaryFolder folder;
    put(folder / "halfsplit.1", cli::man_page(program));
    for (const cli::GuideCommand& command : program.commands)
        put(folder / ("halfsplit-" + command.name + ".1"), cli::man_page(program, command));
    const test::Ran ran = test::run_shell("cd " + folder.path().string() +
                                          "; for page in *.1; do groff -man -ww -z -rLL=78n $page; done");
    CHECK(ran.out.empty());
    put(folder / "wrong.1", ".TH X 1\n.SH NAME\n.BADMACRO\n");
    CHECK_FALSE(test::run_shell("groff -man -ww -z " + folder / "wrong.1").out.empty());
}

TEST_CASE("bash offers commands, options, words and files by ending") {
    const Workplace place;
    put(place.folder / "completion", cli::bash_completion(cli::guide_model()));
    // As the shell does it: "=" is a word of its own.
    put(place.folder / "drive",
        "source ./completion\nCOMP_WORDS=(\"$@\") COMP_CWORD=$(($# - 1))\n_halfsplit\nprintf '%s\\n' "
        "\"${COMPREPLY[@]}\"\n");
    const auto offered = [&](const std::string& line) { return place.offered("bash drive " + line); };
    CHECK(offered("halfsplit re") == Words{"rehearse", "review"});
    CHECK(offered("halfsplit hunt mi") == Words{"minibus.json"});
    CHECK(offered("halfsplit hunt my") == Words{"my van.json"});
    CHECK(offered("halfsplit draft mi") == Words{"minibus.wires"});
    CHECK(offered("halfsplit hunt minibus.json --job ''") == Words{"jobs", "monday.job"});
    CHECK(offered("halfsplit review --json jobs/") == Words{"jobs/tuesday.job"});
    CHECK(offered("halfsplit check a b mi") == Words{"minibus.json"});
    CHECK(offered("halfsplit next minibus.json --least ''") == Words{"expected", "worst"});
    CHECK(offered("halfsplit next minibus.json --least = w") == Words{"worst"});
    CHECK(offered("halfsplit next minibus.json --least =") == Words{"expected", "worst"});
    CHECK(offered("halfsplit card --paper = letter --h") == Words{"--help", "--html"});
    CHECK(offered("halfsplit check --explain terminator") == Words{"terminator-count"});
    CHECK(offered("halfsplit hunt minibus.json --columns ''") == Words{""});
    CHECK(offered("halfsplit --in") == Words{"--include-outside"});
}

TEST_CASE("fish offers commands, options, words and files by ending") {
    if (!test::has_program("fish")) {
        WARN("no fish here: its completion was not tried");
        return;
    }
    const Workplace place;
    put(place.folder / "halfsplit.fish", cli::fish_completion(cli::guide_model()));
    CHECK(test::run_shell("fish --no-config -n " + place.folder / "halfsplit.fish").out.empty());
    // One start for all of them: it takes longer than what it does.
    const Words offered = place.offered(
        "HOME=$PWD fish --no-config -c \"source halfsplit.fish; for line in 'halfsplit rev' 'halfsplit draft "
        "mi' "
        "'halfsplit hunt --job mo' 'halfsplit hunt --least w' 'halfsplit card --pap' 'halfsplit check "
        "--explain terminator'; "
        "complete -C \\$line; end\"");
    CHECK(offered == Words{"review", "minibus.wires", "monday.job", "worst", "--paper", "terminator-count"});
}

TEST_CASE("zsh offers commands, options, words and files by ending") {
    if (!test::has_program("zsh")) {
        WARN("no zsh here: its completion was not read");
        return;
    }
    const Workplace place;
    put(place.folder / "_halfsplit", cli::zsh_completion(cli::guide_model()));
    CHECK(test::run_shell("zsh -n " + place.folder / "_halfsplit").out.empty());
    // A shell on a terminal of its own. After each line and a tab it waits for what has to be added to the
    // line.
    put(place.folder / "drive", R"(zmodload zsh/zpty
zpty shell zsh -f -i
zpty -w shell 'fpath=($PWD $fpath); autoload -U compinit; compinit -u -D; bindkey "^I" complete-word; echo REA""DY'
zpty -r shell out '*READY*'
while read -r line; do
    zpty -w -n shell "${line%|*}"$'\t'
    zpty -r shell out "*${line#*|}*"
    zpty -w -n shell $'\x15'
    print -r -- "${line#*|}"
done <<'LINES'
halfsplit rev|iew
halfsplit hunt mi|nibus.json
halfsplit draft mi|nibus.wires
halfsplit hunt minibus.json --job mo|nday.job
halfsplit hunt minibus.json --least w|orst
halfsplit card --pap|er
halfsplit check --explain terminator|-count
LINES
zpty -d shell
)");
    CHECK(place.offered("TERM=dumb timeout 30 zsh -f drive") ==
          Words{"iew", "nibus.json", "nibus.wires", "nday.job", "orst", "er", "-count"});
}

TEST_CASE("the version tells how the program was built, and nothing that changes from build to build") {
    const std::string version = help_of({"--version"});
    static const std::regex wanted(
        "halfsplit \\d+\\.\\d+\\.\\d+\nbuild: [A-Za-z ]+, (g\\+\\+|clang) \\d+\\.\\d+\\.\\d+(, hardened)?\n"
        "line editing: (libedit|left out of this build)\n"
        "harness lists \\(KBL\\): (pugixml \\d+\\.\\d+|left out of this build)\n");
    INFO(version);
    CHECK(std::regex_match(version, wanted));
    CHECK(help_of({"hunt", "--version"}) == version);
}
