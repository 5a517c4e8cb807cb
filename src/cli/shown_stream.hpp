// The last thing before a terminal: whatever text comes, from harness files, logs, file names or the command
// line, no character goes out that could upset the terminal or turn the direction of what is read.
#pragma once

#include <ostream>
#include <streambuf>
#include <string>
#include <string_view>

namespace halfsplit::cli {

// Passes on what printable_lines() leaves. Writes through at once; of a character whose bytes come apart the
// first are held back until the rest is there, or the stream ends. With `emphasis` the two sequences for bold
// and back pass, as report/step_sheet.hpp writes them.
class ShownStream : private std::streambuf, public std::ostream {
  public:
    ShownStream(std::ostream& target, bool emphasis);
    ShownStream(const ShownStream&) = delete;
    ShownStream& operator=(const ShownStream&) = delete;
    ~ShownStream() override;

  private:
    int overflow(int c) override;
    std::streamsize xsputn(const char* text, std::streamsize size) override;
    int sync() override;
    void pass(std::string_view text);

    std::ostream& target_;
    bool emphasis_;
    std::string held_;
};

}  // namespace halfsplit::cli
