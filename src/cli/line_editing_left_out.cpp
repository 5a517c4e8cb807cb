// The terminal of a build without line editing.
#include "cli/terminal_console.hpp"

namespace halfsplit::cli {

std::string line_editor() {
    return {};
}

std::unique_ptr<Terminal> console_terminal() {
    return std::make_unique<ConsoleTerminal>();
}

}  // namespace halfsplit::cli
