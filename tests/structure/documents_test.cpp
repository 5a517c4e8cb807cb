// Every command that README.md and docs/ show is run, page by page in the order in which it stands there, by
// a shell, in a copy of what a reader has: each must work, and print what the page says that it prints
// (support/console_page.hpp has the marks). With HALFSPLIT_APPROVE=1 in the environment the pages are written
// anew from what came out, for a person to read and approve.
#include "support/documents.hpp"

#include "halfsplit/cli/run.hpp"

#include "support/catch.hpp"
#include "support/console_page.hpp"
#include "support/files_of_tests.hpp"
#include "support/program.hpp"
#include "support/shell.hpp"
#include "support/temporary_folder.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

namespace {

namespace fs = std::filesystem;
using namespace halfsplit;

// What builds, installs or measures, by how it begins: minutes each, or for another machine. Tests run them.
struct LeftToOthers {
    std::string begins, why;
};
const std::vector<LeftToOthers> left_to_others{
    {"bash data/demo/run.sh", "installs and builds, then plays a hunt"},
    {"bash tests/", "the scripts that build, test, pack and lint: each is run by itself"},
    {"cmake ", "builds and installs: tests/package/try_installed.cmake"},
    {"sudo ", "changes the machine"},
    {".build/", "benchmarks: minutes each"},
    {"ctest ", "the tests themselves"},
    {"HALFSPLIT_HUNTS=", "ten minutes of hunts"},
    {"HALFSPLIT_TRIPLES=", "an hour of hunts"},
    {"python3 tests/mutate/", "changes of the source, one at a time: hours"},
};

bool is_left_to_others(const std::string& command, std::set<std::string>& used) {
    for (const LeftToOthers& left : left_to_others) {
        if (command.rfind(left.begins, 0) != 0) continue;
        used.insert(left.begins);
        return true;
    }
    return false;
}

void write_lines(const fs::path& path, const test::Lines& lines) {
    std::ofstream out(path, std::ios::binary);
    for (const std::string& line : lines) out << line << '\n';
}

// What one page runs: a folder with what a reader has at the top of the project, and a clock of its own.
class Reader {
  public:
    Reader() {
        fs::create_directories(top() / "data");
        fs::copy(test::path_of("data/demo"), top() / "data/demo", fs::copy_options::recursive);
        fs::create_directory_symlink(test::path_of("docs"), top() / "docs");
    }

    // What came out of each step and with which exit code; nothing for a file. One shell for all, so that
    // `cd` lasts.
    std::vector<test::Ran> run(const test::ConsolePage& page, std::set<std::string>& used) {
        std::string script = "cd '" + top().string() + "' || exit\n";
        script += "export PATH='" + (fs::path(HALFSPLIT_PROGRAM).parent_path() / "tests/stage").string() +
                  "':\"$PATH\"\n";
        script += "export HALFSPLIT_STAGE_CLOCK='" + (folder_ / "clock") + "' LC_ALL=C.UTF-8\n";
        script += "unset COLUMNS NO_COLOR\n";
        for (std::size_t i = 0; i < page.steps.size(); ++i) script += of_step(page.steps[i], i, used);
        std::ofstream(folder_ / "script") << script;
        const test::Ran all = test::run_shell("bash '" + (folder_ / "script") + "'");
        return parts_of(all.out, page.steps.size());
    }

  private:
    fs::path top() const { return folder_.path() / "halfsplit"; }

    std::string of_step(const test::PageStep& step, std::size_t number, std::set<std::string>& used) const {
        const std::string input = folder_ / ("input" + std::to_string(number));
        std::string run = "(exit $code)\n{ " + step.text + "\n} <'" + input + "'\n";
        if (step.kind == test::PageStep::Kind::File) {
            write_lines(input, test::lines_of(step));
            run = "cp '" + input + "' '" + step.text + "'\n";
        } else if (is_left_to_others(step.text, used)) {
            run = "true\n";
        } else {
            std::ofstream(input) << test::typed_lines(step);
        }
        return run + "code=$?; printf '\\036%d\\036' $code\n";
    }

    static std::vector<test::Ran> parts_of(const std::string& text, std::size_t count) {
        std::vector<test::Ran> parts;
        std::istringstream in(text);
        for (std::string out, code; std::getline(in, out, '\036') && std::getline(in, code, '\036');)
            parts.push_back({out, std::stoi(code)});
        if (parts.size() != count) throw std::runtime_error("the shell came to an end early:\n" + text);
        return parts;
    }

    test::TemporaryFolder folder_;
};

std::string joined(const test::Lines& lines) {
    std::string text;
    for (const std::string& line : lines) text += "  " + line + "\n";
    return text;
}

// A command that fails is followed by one that shows its exit code: a reader is told.
void check_steps(const std::string& path, const test::ConsolePage& page, const std::vector<test::Ran>& ran) {
    for (std::size_t i = 0; i < page.steps.size(); ++i) {
        const test::PageStep& step = page.steps[i];
        INFO(path << ":" << step.line + 1 << ": " << step.text);
        const test::Lines found = test::lines_of_text(ran[i].out);
        INFO("shown:\n"
             << joined(test::lines_of(step)) << "found, with exit code " << ran[i].code << ":\n"
             << joined(found));
        const bool told = i + 1 < page.steps.size() && page.steps[i + 1].text == "echo $?";
        CHECK((ran[i].code == 0 || told));
        if (step.shown) CHECK(test::is_as_shown(step, found));
    }
}

void approve(const std::string& path, const test::ConsolePage& page, const std::vector<test::Ran>& ran) {
    std::vector<test::Lines> found;
    for (const test::Ran& one : ran) found.push_back(test::lines_of_text(one.out));
    const std::string text = test::approved(page, found);
    if (text != test::read_file(path)) std::ofstream(test::path_of(path)) << text;
}

std::string help_of(const std::string& command) {
    const test::Said said = test::run_program({command, "--help"});
    REQUIRE(said.code == cli::Exit::fine);
    return said.out;
}

}  // namespace

TEST_CASE("commands and options that the documents name within a sentence are there") {
    static const std::regex command("`halfsplit ([a-z]+)([^`]*)`"), option("--[a-z-]+");
    std::size_t checked = 0;
    for (const std::string& path : test::document_paths()) {
        for (const std::string& line : test::prose_of(path)) {
            for (std::sregex_iterator named(line.begin(), line.end(), command), end; named != end; ++named) {
                INFO(path << ": " << named->str());
                const std::string help = help_of((*named)[1]), rest = (*named)[2];
                for (std::sregex_iterator one(rest.begin(), rest.end(), option); one != end; ++one)
                    CHECK(help.find(one->str()) != std::string::npos);
                ++checked;
            }
        }
    }
    CHECK(checked > 20);
}

TEST_CASE("every command of the documents works and prints what they say", "[long][kbl]") {
    std::size_t commands = 0;
    std::set<std::string> used;
    for (const std::string& path : test::document_paths()) {
        const test::ConsolePage page = test::read_console_page(test::read_file(path));
        for (const std::size_t line : page.stray) {
            INFO(path << ":" << line + 1 << ": " << page.lines[line]);
            FAIL_CHECK("a command in a block that is not run: make it ```console, ```sh or ```bat");
        }
        if (page.steps.empty()) continue;
        Reader reader;
        const std::vector<test::Ran> ran = reader.run(page, used);
        if (std::getenv("HALFSPLIT_APPROVE") != nullptr) {
            approve(path, page, ran);
        } else {
            check_steps(path, page, ran);
        }
        commands += page.steps.size();
    }
    CHECK(commands >= 60);
    for (const LeftToOthers& left : left_to_others) {
        INFO("no document has a command that begins so: " << left.begins);
        CHECK(used.count(left.begins) == 1);
    }
}
