// A page of documentation as something to run: its commands in their order, what it says that they print, and
// the files that it shows.
//
//     ```console          commands behind "$ ", each followed by all that it prints; a line "..." stands for
//                         lines left out. What is typed in a conversation stands behind its prompt ("> ") and
//                         is never left out. A block that begins without "$ " goes on with what the one
//                         before it showed last
//     ```sh               commands as they are, one a line ("\" at its end goes on); what they print is not
//                         shown
//     ```bat              the same for Windows' console: run with "/" for "\"
//     ```json van.json    the block is a file of that name from here on
//
// Other blocks are text. A command of this program in one of those, or in lines set in by four blanks, would
// be run by nobody: it is named as `stray`.
#pragma once

#include <string>
#include <vector>

namespace halfsplit::test {

using Lines = std::vector<std::string>;

struct PageStep {
    enum class Kind { Command, File } kind = Kind::Command;
    struct Part {
        std::size_t line = 0;  // where it begins, from 0
        Lines lines;
    };
    std::size_t line = 0;     // where it stands, from 0
    std::string text;         // the command; the name of the file
    bool shown = false;       // a command: `parts` are what it prints
    std::vector<Part> parts;  // what is shown, by block; what is in the file
};

struct ConsolePage {
    Lines lines;  // the page
    std::vector<PageStep> steps;
    std::vector<std::size_t> stray;  // lines, from 0
};

Lines lines_of_text(const std::string& text);

// Throws std::runtime_error for a block that does not end, and for one that goes on with nothing.
ConsolePage read_console_page(const std::string& text);

// All that is shown of it, or in the file.
Lines lines_of(const PageStep& step);

// What is typed, by the prompts of a conversation; empty for any other command.
std::string typed_lines(const PageStep& command);

// Whether what came out is what is shown. Blanks at the end of a line and empty lines count for nothing.
bool is_as_shown(const PageStep& command, const Lines& found);

// The page with what came out in place of what is shown, by step. Lines that were left out stay left out,
// where what stood between them can be found again.
std::string approved(const ConsolePage& page, const std::vector<Lines>& found);

}  // namespace halfsplit::test
