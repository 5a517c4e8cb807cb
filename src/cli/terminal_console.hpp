// A person's terminal: what is the same with line editing and without it.
#pragma once

#include "halfsplit/cli/terminal.hpp"

namespace halfsplit::cli {

// Lines as the console itself has them typed and corrected; it shows them, so they are not echoed.
class ConsoleTerminal : public Terminal {
  public:
    std::optional<std::string> read_line(const std::string& prompt,
                                         const std::vector<std::string>& words) override;
    std::size_t columns() const override;
    bool emphasis() const override;
    void ring(int times) override;
};

// The one that this build has, with editing or without: line_editing_libedit.cpp or
// line_editing_left_out.cpp.
std::unique_ptr<Terminal> console_terminal();

}  // namespace halfsplit::cli
