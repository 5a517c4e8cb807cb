// What is asked of the console, or terminal, that a person sits at: one answer for each system, in
// process_posix.cpp and process_windows.cpp.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

namespace halfsplit::cli {

// Whether a person is at both ends: standard input and output.
bool at_console();
// Its width, or COLUMNS, or 80.
std::size_t console_columns();
// Whether it shows bold, and NO_COLOR is not set.
bool console_emphasis();
// A line without its end, as typed; empty at the end of input.
std::optional<std::string> console_line();

}  // namespace halfsplit::cli
