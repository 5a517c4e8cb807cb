#include "cli/line_keys.hpp"

#include <cerrno>
#include <csignal>
#include <initializer_list>
#include <optional>
#include <sys/select.h>
#include <unistd.h>

namespace halfsplit::cli {

namespace {

volatile std::sig_atomic_t was_resized = 0, was_stopped = 0, was_continued = 0;

constexpr std::initializer_list<int> noted_signals{SIGWINCH, SIGTSTP, SIGCONT};

void note_signal(int signal) {
    if (signal == SIGWINCH) was_resized = 1;
    if (signal == SIGTSTP) was_stopped = 1;
    if (signal == SIGCONT) was_continued = 1;
}

void mask_signals(int how, std::initializer_list<int> signals) {
    sigset_t set;
    sigemptyset(&set);
    for (const int signal : signals) sigaddset(&set, signal);
    sigprocmask(how, &set, nullptr);
}

void handle_signal(int signal, void (*handler)(int)) {
    struct sigaction action {};
    action.sa_handler = handler;
    sigaction(signal, &action, nullptr);
}

std::optional<Came> noted() {
    const auto take = [](volatile std::sig_atomic_t& note) {
        const bool result = note != 0;
        note = 0;
        return result;
    };
    if (take(was_stopped)) return Came::Stop;
    if (take(was_continued)) return Came::Continued;
    if (take(was_resized)) return Came::Resize;
    return std::nullopt;
}

// Signals that were held back come now, or while there is nothing to read. Whether there is something.
bool wait_for_input() {
    sigset_t let_through;
    sigprocmask(SIG_SETMASK, nullptr, &let_through);
    for (const int signal : noted_signals) sigdelset(&let_through, signal);
    fd_set input;
    FD_ZERO(&input);
    FD_SET(STDIN_FILENO, &input);
    return pselect(STDIN_FILENO + 1, &input, nullptr, nullptr, nullptr, &let_through) > 0;
}

}  // namespace

TerminalSignals::TerminalSignals() {
    mask_signals(SIG_BLOCK, noted_signals);
}

TerminalSignals::~TerminalSignals() {
    mask_signals(SIG_UNBLOCK, noted_signals);
}

Came wait_for_byte(char& byte) {
    // In place of the editor's handlers, which it puts in place, and takes away, with each line.
    for (const int signal : noted_signals) handle_signal(signal, note_signal);
    for (;;) {
        const bool ready = wait_for_input();
        if (const auto came = noted()) return *came;
        const ssize_t count = ready ? read(STDIN_FILENO, &byte, 1) : -1;
        if (count == 1) return Came::Byte;
        if (count == 0 || (errno != EINTR && errno != EAGAIN)) return Came::End;
    }
}

void stop() {
    handle_signal(SIGTSTP, SIG_DFL);
    kill(0, SIGTSTP);
    mask_signals(SIG_UNBLOCK, {SIGTSTP, SIGCONT});  // here it stops
    mask_signals(SIG_BLOCK, {SIGTSTP, SIGCONT});
    was_continued = 0;
}

}  // namespace halfsplit::cli
