// What a system hands to a program and takes from it, alike on all of them: text is UTF-8, and what is
// written is what arrives. One file for each system: src/cli/process_posix.cpp, process_windows.cpp.
#pragma once

#include <memory>
#include <string>
#include <vector>

namespace halfsplit::cli {

// The process, from the first thing main() does to the last. Makes std::cin, std::cout and std::cerr ready,
// and leaves what it changed of a console as it was.
class Process {
  public:
    Process(int count, char** arguments);
    ~Process();
    Process(const Process&) = delete;
    Process& operator=(const Process&) = delete;

    // Without the program's name.
    const std::vector<std::string>& arguments() const { return arguments_; }
    // Whether all that was written to std::cout arrived. A reader who had enough and went away (| head -1) is
    // no failure.
    bool delivered() const;

  private:
    struct Console;
    std::vector<std::string> arguments_;
    std::unique_ptr<Console> console_;
};

}  // namespace halfsplit::cli
