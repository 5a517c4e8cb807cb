// The program as a process of its own, which can be killed. process_posix.cpp, process_windows.cpp.
#pragma once

#include <memory>
#include <string>
#include <vector>

namespace halfsplit::test {

// A run that reads `input`; what it says is kept until it ends. The first argument is the program.
class Process {
  public:
    Process(const std::vector<std::string>& arguments, const std::string& input);
    ~Process();
    Process(const Process&) = delete;
    Process& operator=(const Process&) = delete;

    // At once, without a word to it: SIGKILL, TerminateProcess.
    void kill() const;
    // Everything it said. Waits for its end.
    std::string said();

  private:
    struct System;
    std::unique_ptr<System> system_;
};

}  // namespace halfsplit::test
