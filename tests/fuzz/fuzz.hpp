// What the fuzz targets share: the input as text and as lines, the program run in memory, and a way to stop.
#pragma once

#include "support/fake_files.hpp"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::fuzz {

inline std::string_view as_text(const std::uint8_t* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data), size};
}

// Without their line ends; at most so many.
std::vector<std::string> lines_of(std::string_view text, std::size_t most);

// Words between blanks; double quotes keep blanks together.
std::vector<std::string> words_of(std::string_view line);

// Stops the run, with the words, where it does not hold.
void require(bool holds, std::string_view what);

// The harness files and sheets of tests and demo that a target works on, as files in memory.
test::FakeFiles small_files();

// Runs the program on files in memory, with `typed` as what comes from the keyboard. An exit code that is
// none, or "own failure", stops the run. Returns what it said on standard output.
std::string run_program(const std::vector<std::string>& arguments, test::FakeFiles& files,
                        std::string_view typed = {});

}  // namespace halfsplit::fuzz
