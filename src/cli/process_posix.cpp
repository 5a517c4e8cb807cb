// The process and its terminal by the calls of POSIX.
#include "halfsplit/cli/process.hpp"

#include "cli/console.hpp"

#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <iostream>
#include <string_view>
#include <sys/ioctl.h>
#include <unistd.h>

namespace halfsplit::cli {

struct Process::Console {};

Process::Process(int count, char** arguments) : arguments_(arguments + 1, arguments + count) {
    // A reader that goes away (| head -1) must not end the program between two files that it writes.
    std::signal(SIGPIPE, SIG_IGN);
}

Process::~Process() = default;

bool Process::delivered() const {
    return std::cout || errno == EPIPE;
}

bool at_console() {
    return isatty(STDIN_FILENO) != 0 && isatty(STDOUT_FILENO) != 0;
}

std::size_t console_columns() {
    winsize size{};
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
    const char* columns = std::getenv("COLUMNS");
    const int width = columns != nullptr ? std::atoi(columns) : 0;
    return width > 0 ? static_cast<std::size_t>(width) : 80;
}

bool console_emphasis() {
    const char* no_color = std::getenv("NO_COLOR");
    const char* kind = std::getenv("TERM");
    const bool able = kind != nullptr && std::string_view(kind) != "dumb";
    return able && (no_color == nullptr || *no_color == '\0');
}

std::optional<std::string> console_line() {
    std::string line;
    if (!std::getline(std::cin, line)) return std::nullopt;
    return line;
}

}  // namespace halfsplit::cli
