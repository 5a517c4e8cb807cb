// Programs that a test runs, each in a shell of its own.
#pragma once

#include <string>

namespace halfsplit::test {

struct Ran {
    std::string out;  // what was written, errors among it
    int code = 0;     // 128 and more: ended by a signal
};

Ran run_shell(const std::string& command);

// Whether there is such a program to run.
bool has_program(const std::string& name);

}  // namespace halfsplit::test
