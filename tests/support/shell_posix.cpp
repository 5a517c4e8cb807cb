#include "support/shell.hpp"

#include <array>
#include <cstdio>
#include <memory>
#include <stdexcept>
#include <sys/wait.h>

namespace halfsplit::test {

Ran run_shell(const std::string& command) {
    std::FILE* pipe = popen(("{ " + command + "\n} 2>&1").c_str(), "r");
    if (pipe == nullptr) throw std::runtime_error("no shell could be started");
    Ran ran;
    std::array<char, 4096> part{};
    while (const std::size_t length = std::fread(part.data(), 1, part.size(), pipe))
        ran.out.append(part.data(), length);
    const int status = pclose(pipe);
    ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    return ran;
}

bool has_program(const std::string& name) {
    return run_shell("command -v " + name + " >/dev/null").code == 0;
}

}  // namespace halfsplit::test
