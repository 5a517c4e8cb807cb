#include "halfsplit/cli/run.hpp"

#include <cerrno>
#include <csignal>
#include <iostream>
#include <string>
#include <vector>

int main(int count, char** arguments) {
    // A reader that goes away (| head -1) must not end the program between two files that it writes.
    std::signal(SIGPIPE, SIG_IGN);
    const auto terminal = halfsplit::cli::system_terminal();
    halfsplit::cli::Context context{std::cout, std::cerr, halfsplit::posix_files(), halfsplit::system_clock(),
                                    *terminal};
    const int code = halfsplit::cli::run(std::vector<std::string>(arguments + 1, arguments + count), context);
    if (std::cout || errno == EPIPE) return code;
    std::cerr
        << "halfsplit: standard output could not be written: make room there, or choose another place\n";
    return halfsplit::cli::Exit::unusable;
}
