#include "cli/terminal_console.hpp"

#include "cli/console.hpp"

#include <chrono>
#include <iostream>
#include <thread>

namespace halfsplit::cli {

std::optional<std::string> ConsoleTerminal::read_line(const std::string& prompt,
                                                      const std::vector<std::string>&) {
    std::cout << prompt << std::flush;
    std::optional<std::string> line = console_line();
    if (!line) std::cout << '\n';
    return line;
}

std::size_t ConsoleTerminal::columns() const {
    return console_columns();
}

bool ConsoleTerminal::emphasis() const {
    return console_emphasis();
}

void ConsoleTerminal::ring(int times) {
    using namespace std::chrono_literals;
    for (int i = 0; i < times; ++i) {
        if (i > 0) std::this_thread::sleep_for(250ms);
        std::cout << '\a' << std::flush;
    }
}

std::unique_ptr<Terminal> system_terminal() {
    if (at_console()) return console_terminal();
    return std::make_unique<PlainTerminal>(std::cin, std::cout, console_columns());
}

}  // namespace halfsplit::cli
