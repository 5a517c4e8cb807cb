// The program on a terminal of its own: a pseudo-terminal on which a person types, resizes, and listens.
#include "support/catch.hpp"
#include "support/files_of_tests.hpp"

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <pty.h>
#include <sstream>
#include <string>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <termios.h>
#include <thread>
#include <unistd.h>

using namespace std::chrono_literals;

namespace {

class PseudoTerminal {
  public:
    PseudoTerminal(const std::vector<std::string>& arguments, const std::string& kind) {
        winsize size{30, 80, 0, 0};
        child_ = forkpty(&master_, nullptr, nullptr, &size);
        if (child_ == 0) {
            setenv("TERM", kind.c_str(), 1);
            setenv("LC_ALL", "C", 1);
            take_back_whole_letters();
            std::vector<char*> words;
            for (const std::string& argument : arguments)
                words.push_back(const_cast<char*>(argument.c_str()));
            words.push_back(nullptr);
            execv(words.front(), words.data());
            _exit(127);
        }
    }
    ~PseudoTerminal() {
        kill(child_, SIGKILL);
        waitpid(child_, nullptr, 0);
        close(master_);
    }
    PseudoTerminal(const PseudoTerminal&) = delete;
    PseudoTerminal& operator=(const PseudoTerminal&) = delete;

    void type(const std::string& keys) {
        REQUIRE(write(master_, keys.data(), keys.size()) == static_cast<ssize_t>(keys.size()));
    }
    // The kernel tells the program, as it does when a window is dragged or a phone is turned.
    void resize(unsigned short columns) {
        winsize size{30, columns, 0, 0};
        REQUIRE(ioctl(master_, TIOCSWINSZ, &size) == 0);
    }
    // Reads until the text has come, and gives what came with it; ten seconds at most.
    std::string wait_for(const std::string& text) {
        std::string seen;
        const auto end = std::chrono::steady_clock::now() + 10s;
        while (seen.find(text) == std::string::npos && std::chrono::steady_clock::now() < end) {
            fd_set ready;
            FD_ZERO(&ready);
            FD_SET(master_, &ready);
            timeval patience{0, 100000};
            if (select(master_ + 1, &ready, nullptr, nullptr, &patience) <= 0) continue;
            char buffer[4096];
            const ssize_t count = read(master_, buffer, sizeof buffer);
            if (count <= 0) break;
            seen.append(buffer, static_cast<std::size_t>(count));
        }
        INFO(seen);
        REQUIRE(seen.find(text) != std::string::npos);
        return seen;
    }

  private:
    // As every window of a terminal does today. Where lines are not edited, the kernel takes letters back.
    static void take_back_whole_letters() {
        termios mode;
        if (tcgetattr(STDIN_FILENO, &mode) != 0) _exit(127);
        mode.c_iflag |= IUTF8;
        if (tcsetattr(STDIN_FILENO, TCSANOW, &mode) != 0) _exit(127);
    }

    int master_ = -1;
    pid_t child_ = -1;
};

struct HuntFolder {
    std::filesystem::path path =
        std::filesystem::temp_directory_path() / ("halfsplit-terminal-" + std::to_string(getpid()));
    HuntFolder() { std::filesystem::create_directories(path); }
    ~HuntFolder() { std::filesystem::remove_all(path); }
    std::string job() const { return (path / "a.job").string(); }
    std::vector<std::string> hunt() const {
        return {HALFSPLIT_PROGRAM, "hunt", halfsplit::test::path_of("tests/data/small_chain.json"), "--job",
                job()};
    }
    std::string log() const {
        std::ostringstream text;
        text << std::ifstream(job()).rdbuf();
        return text.str();
    }
};

long bells(const std::string& text) {
    return std::count(text.begin(), text.end(), '\a');
}

}  // namespace

TEST_CASE("no keystroke is lost when the terminal is resized while one types") {
    const HuntFolder folder;
    PseudoTerminal terminal(folder.hunt(), "xterm");
    terminal.wait_for("complaint> ");
    unsigned short columns = 30;
    for (const std::string keys : {"se", "at m", "odu", "le s", "ilent"}) {
        terminal.type(keys);
        terminal.resize(columns);
        std::this_thread::sleep_for(20ms);
        columns = static_cast<unsigned short>(columns + 20);
    }
    terminal.type("\r");
    terminal.wait_for("when (wet");
    CHECK(folder.log().find("\"seat module silent\"") != std::string::npos);
}

TEST_CASE("letters with accents are typed, taken back and kept, whatever the locale") {
    const HuntFolder folder;
    PseudoTerminal terminal(folder.hunt(), "xterm");
    terminal.wait_for("complaint> ");
    terminal.type("fus\303\251e gr\303\274\177ill\303\251e\r");
    terminal.wait_for("when (wet");
    CHECK(folder.log().find("\"fus\303\251e grill\303\251e\"") != std::string::npos);
}

// Where lines are not edited the kernel throws a line away at Ctrl-Z.
TEST_CASE("a hunt that nobody can stop by Ctrl-Z takes the line on from there", "[line-editing]") {
    const HuntFolder folder;
    PseudoTerminal terminal(folder.hunt(), "xterm");
    terminal.wait_for("complaint> ");
    for (const std::string keys : {"seat", " module", " silent"}) {
        terminal.type(keys);
        std::this_thread::sleep_for(50ms);
        terminal.type("\x1a");
        std::this_thread::sleep_for(50ms);
    }
    terminal.type("\r");
    terminal.wait_for("when (wet");
    CHECK(folder.log().find("\"seat module silent\"") != std::string::npos);
}

TEST_CASE("the bell is heard once for an entry, twice where it does not fit, and not at all when told so") {
    const HuntFolder folder;
    for (const bool silent : {false, true}) {
        INFO(silent);
        std::vector<std::string> arguments = folder.hunt();
        arguments.back() += silent ? ".quiet" : "";
        if (silent) arguments.emplace_back("--no-bell");
        PseudoTerminal terminal(arguments, "vt100");
        terminal.wait_for("complaint> ");
        terminal.type("seat dead\r\r\r\r");
        terminal.wait_for("silent modules> ");
        terminal.type("M1\r");
        CHECK(bells(terminal.wait_for("y 10 (minutes waited), or n> ")) == (silent ? 0 : 1));
        terminal.type("y 10\r");
        terminal.wait_for("to clip DS:14> ");
        terminal.type("reading X1.b:4 DS:6 0.3\r");
        CHECK(bells(terminal.wait_for("> ")) == (silent ? 0 : 1));
        terminal.type("reading S1:H DS:6 OL\r");
        CHECK(bells(terminal.wait_for("DOUBT")) == (silent ? 0 : 2));
    }
}

TEST_CASE("on a terminal that can only write lines nothing but text comes out") {
    const HuntFolder folder;
    PseudoTerminal terminal(folder.hunt(), "dumb");
    terminal.wait_for("complaint> ");
    terminal.type("seat dead\r\r\r\r");
    terminal.wait_for("silent modules> ");
    terminal.type("M1\ry 10\r");
    CHECK(terminal.wait_for("to clip DS:14> ").find('\x1b') == std::string::npos);
}
