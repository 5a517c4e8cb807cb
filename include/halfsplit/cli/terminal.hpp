// Where the conversation takes place: a real terminal with line editing, or plain lines from a pipe.
#pragma once

#include <cstddef>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::cli {

class Terminal {
  public:
    virtual ~Terminal() = default;
    // One line without its end; empty at the end of input. `words` are offered for completion.
    virtual std::optional<std::string> read_line(const std::string& prompt,
                                                 const std::vector<std::string>& words) = 0;
    virtual std::size_t columns() const = 0;
    // Bold allowed: a terminal that can do more than write lines (TERM is not "dumb"), and NO_COLOR not set.
    virtual bool emphasis() const = 0;
    // The bell, so many times with a pause that tells them apart; nothing where nobody could hear it.
    virtual void ring(int times) = 0;
};

// Plain lines. The line read is echoed behind its prompt, so that what comes out is a transcript.
class PlainTerminal : public Terminal {
  public:
    PlainTerminal(std::istream& in, std::ostream& out, std::size_t columns)
        : in_(in), out_(out), columns_(columns) {}
    std::optional<std::string> read_line(const std::string& prompt,
                                         const std::vector<std::string>& words) override;
    std::size_t columns() const override { return columns_; }
    bool emphasis() const override { return false; }
    void ring(int) override {}

  private:
    std::istream& in_;
    std::ostream& out_;
    std::size_t columns_;
};

// Line editing, history and completion when both streams of the process are a terminal, or what that terminal
// does by itself in a build without them; plain lines otherwise. The width is the terminal's own, or COLUMNS,
// or 80.
std::unique_ptr<Terminal> system_terminal();

// By what lines are edited; empty in a build without it.
std::string line_editor();

}  // namespace halfsplit::cli
