// Whole conversations, as they look. Each file in tests/cli/transcripts/ holds commands one after the other,
// run in one folder (in memory) that starts with the harness files of the project:
//
//     $ command line          without the program's name
//     < typed line
//     | line of standard output
//     ! line of standard error
//     = exit code
//
// Lines before the first command say what the file shows. With HALFSPLIT_APPROVE=1 in the environment the
// files are written anew from what came out, for a person to read and approve.
#include "halfsplit/cli/run.hpp"

#include "support/catch.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"
#include "support/ticking_clock.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>
#include <vector>

namespace {

namespace fs = std::filesystem;
using namespace halfsplit;

struct Step {
    std::string command, typed, out, err;
    int exit_code = 0;
};

struct Transcript {
    std::string heading;
    std::vector<Step> steps;
};

Transcript read_transcript(const std::string& text) {
    Transcript transcript;
    std::istringstream in(text);
    std::string line;
    while (std::getline(in, line)) {
        const std::string content = line.size() > 2 ? line.substr(2) : "";
        const char sign = line.empty() ? ' ' : line[0];
        if (sign == '$') {
            transcript.steps.push_back({content, "", "", "", 0});
        } else if (transcript.steps.empty()) {
            transcript.heading += line + "\n";
        } else if (sign == '<') {
            transcript.steps.back().typed += content + "\n";
        } else if (sign == '|') {
            transcript.steps.back().out += content + "\n";
        } else if (sign == '!') {
            transcript.steps.back().err += content + "\n";
        } else if (sign == '=') {
            transcript.steps.back().exit_code = std::stoi(content);
        }
    }
    return transcript;
}

// Words of a command line; double quotes keep blanks together.
std::vector<std::string> words_of(const std::string& command) {
    std::vector<std::string> words;
    std::string word;
    bool quoted = false;
    bool any = false;
    for (const char c : command) {
        if (c == '"') {
            quoted = !quoted;
            any = true;
        } else if (c == ' ' && !quoted) {
            if (any) words.push_back(word);
            word.clear();
            any = false;
        } else {
            word += c;
            any = true;
        }
    }
    if (any) words.push_back(word);
    return words;
}

class Stage {
  public:
    Stage() {
        for (const std::string path :
             {"tests/data/small_chain.json", "tests/data/lamp_feed.json", "data/demo/minibus.json",
              "data/demo/forestry.json", "data/demo/matrix.json", "data/demo/mobile_library.wires",
              "data/demo/broken/unknown-part.json"}) {
            if (fs::exists(test::path_of(path))) {
                files_.put(fs::path(path).filename().string(), test::read_file(path));
            }
        }
        for (const std::string library : {"library/minibus.json", "library/forestry.json"})
            files_.put(library, test::read_file("data/demo/" + library));
        files_.put("socket_away.json", test::socket_away_json());
    }

    Step run(const Step& step) {
        std::istringstream in(step.typed);
        std::ostringstream out;
        std::ostringstream err;
        cli::PlainTerminal terminal(in, out, 80);
        cli::Context context{out, err, files_, clock_, terminal};
        const int code = cli::run(words_of(step.command), context);
        return {step.command, step.typed, out.str(), err.str(), code};
    }

  private:
    test::FakeFiles files_;
    test::TickingClock clock_;
};

std::string marked(const std::string& text, char sign) {
    std::istringstream in(text);
    std::string result;
    std::string line;
    while (std::getline(in, line)) {
        result += sign;
        if (!line.empty()) result += " " + line;
        result += "\n";
    }
    return result;
}

std::string written(const Transcript& transcript) {
    std::string text = transcript.heading;
    for (const Step& step : transcript.steps) {
        text += "$ " + step.command + "\n" + marked(step.typed, '<') + marked(step.out, '|') +
                marked(step.err, '!') + "= " + std::to_string(step.exit_code) + "\n";
    }
    return text;
}

// Functions such as exp() differ in the last bit from system to system, and with them now and then the last
// figure of a record that nobody looks at: its checksum and its length are compared where the transcripts
// were approved.
std::string comparable(const std::string& text) {
    if (HALFSPLIT_SAME_FIGURES) return text;
    static const std::regex checksum("ends\\s+\\|?\\s*in\\s+\\|?\\s*[0-9a-f]{16}"), length("[0-9]+ bytes");
    return std::regex_replace(std::regex_replace(text, checksum, "ends in X"), length, "X bytes");
}

std::vector<fs::path> transcript_files() {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(test::path_of("tests/cli/transcripts")))
        files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

}  // namespace

TEST_CASE("conversations look as approved") {
    const bool approve = std::getenv("HALFSPLIT_APPROVE") != nullptr;
    const auto files = transcript_files();
    REQUIRE(files.size() >= 6);
    for (const fs::path& file : files) {
        DYNAMIC_SECTION(file.filename().string()) {
            const std::string text = test::read_file("tests/cli/transcripts/" + file.filename().string());
            const Transcript expected = read_transcript(text);
            Transcript found{expected.heading, {}};
            Stage stage;
            for (const Step& step : expected.steps) found.steps.push_back(stage.run(step));
            if (approve) {
                std::ofstream(file) << written(found);
            } else {
                REQUIRE(comparable(written(found)) == comparable(text));
            }
        }
    }
}

TEST_CASE("no line of a conversation is wider than the screen") {
    for (const fs::path& file : transcript_files()) {
        const Transcript transcript =
            read_transcript(test::read_file("tests/cli/transcripts/" + file.filename().string()));
        for (const Step& step : transcript.steps) {
            const auto words = words_of(step.command);
            const auto option = std::find(words.begin(), words.end(), "--columns");
            if (words.empty() || words.front() != "hunt" || option == words.end()) continue;
            const std::size_t columns = std::stoul(*(option + 1));
            std::istringstream lines(step.out);
            std::string line;
            while (std::getline(lines, line)) {
                INFO(file.filename().string() << ": " << line);
                // A prompt is followed by what was typed.
                if (line.find("> ") == std::string::npos) REQUIRE(line.size() <= columns);
            }
        }
    }
}
