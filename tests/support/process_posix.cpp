#include "support/catch.hpp"
#include "support/process.hpp"

#include <array>
#include <csignal>
#include <sys/wait.h>
#include <unistd.h>

namespace halfsplit::test {

struct Process::System {
    std::array<int, 2> in{}, out{};
    pid_t child = -1;

    [[noreturn]] void become(const std::vector<std::string>& arguments) {
        dup2(in[0], STDIN_FILENO);
        dup2(out[1], STDOUT_FILENO);
        dup2(out[1], STDERR_FILENO);
        for (const int end : {in[0], in[1], out[0], out[1]}) close(end);
        std::vector<char*> words;
        for (const std::string& argument : arguments) words.push_back(const_cast<char*>(argument.c_str()));
        words.push_back(nullptr);
        execv(words.front(), words.data());
        _exit(127);
    }
};

Process::Process(const std::vector<std::string>& arguments, const std::string& input)
    : system_(std::make_unique<System>()) {
    REQUIRE(pipe(system_->in.data()) == 0);
    REQUIRE(pipe(system_->out.data()) == 0);
    system_->child = fork();
    if (system_->child == 0) system_->become(arguments);
    close(system_->in[0]);
    close(system_->out[1]);
    REQUIRE(write(system_->in[1], input.data(), input.size()) == static_cast<ssize_t>(input.size()));
    close(system_->in[1]);
}

Process::~Process() {
    close(system_->out[0]);
}

void Process::kill() const {
    ::kill(system_->child, SIGKILL);
}

std::string Process::said() {
    std::string text;
    std::array<char, 4096> piece{};
    for (ssize_t got = 1; got > 0;) {
        got = read(system_->out[0], piece.data(), piece.size());
        if (got > 0) text.append(piece.data(), static_cast<std::size_t>(got));
    }
    waitpid(system_->child, nullptr, 0);
    return text;
}

}  // namespace halfsplit::test
