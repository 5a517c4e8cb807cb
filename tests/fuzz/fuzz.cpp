#include "fuzz/fuzz.hpp"

#include "halfsplit/cli/run.hpp"

#include "support/fake_clock.hpp"
#include "support/files_of_tests.hpp"

#include <cstdlib>
#include <iostream>
#include <sstream>

namespace halfsplit::fuzz {

namespace {

// A minute passes whenever the clock is read.
class TickingClock : public test::FakeClock {
  public:
    UnixSeconds now() override {
        advance_minutes(1);
        return FakeClock::now();
    }
};

}  // namespace

std::vector<std::string> lines_of(std::string_view text, std::size_t most) {
    std::vector<std::string> lines;
    while (!text.empty() && lines.size() < most) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        lines.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

std::vector<std::string> words_of(std::string_view line) {
    std::vector<std::string> words;
    bool within = false;
    bool quoted = false;
    for (const char c : line) {
        if (c == ' ' && !quoted) {
            within = false;
            continue;
        }
        if (!within) words.emplace_back();
        within = true;
        if (c == '"')
            quoted = !quoted;
        else
            words.back() += c;
    }
    return words;
}

void require(bool holds, std::string_view what) {
    if (holds) return;
    std::cerr << "does not hold: " << what << '\n';
    std::abort();
}

test::FakeFiles small_files() {
    static const std::vector<std::pair<std::string, std::string>> texts = [] {
        std::vector<std::pair<std::string, std::string>> read;
        for (const char* path :
             {"tests/data/small_chain.json", "tests/data/lamp_feed.json", "data/demo/matrix.json",
              "data/demo/mobile_library.wires", "data/demo/broken/unknown-member.json"}) {
            const std::string name(path);
            read.emplace_back(name.substr(name.rfind('/') + 1), test::read_file(name));
        }
        return read;
    }();
    test::FakeFiles files;
    for (const auto& [name, text] : texts) files.put(name, text);
    return files;
}

std::string run_program(const std::vector<std::string>& arguments, test::FakeFiles& files,
                        std::string_view typed) {
    std::istringstream in{std::string(typed)};
    std::ostringstream out;
    std::ostringstream err;
    TickingClock clock;
    cli::PlainTerminal terminal(in, out, 40);
    cli::Context context{out, err, files, clock, terminal};
    const int code = cli::run(arguments, context);
    if (code < cli::Exit::fine || code > cli::Exit::unusable) std::cerr << err.str();
    require(code >= cli::Exit::fine && code <= cli::Exit::unusable, "the exit code is 0, 1 or 2");
    return out.str();
}

}  // namespace halfsplit::fuzz
