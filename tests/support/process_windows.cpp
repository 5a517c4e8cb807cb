#include "base/calls_windows.hpp"
#include "base/wide_windows.hpp"
#include "support/catch.hpp"
#include "support/process.hpp"

#include <array>

namespace halfsplit::test {

namespace {

// As CommandLineToArgvW takes it apart again: no argument of a test holds a quote or ends in a backslash.
std::wstring quoted(const std::vector<std::string>& arguments) {
    std::wstring line;
    for (const std::string& argument : arguments) line += L"\"" + wide_text(argument) + L"\" ";
    return line;
}

}  // namespace

struct Process::System {
    HANDLE in[2] = {}, out[2] = {};  // to read from, to write to
    PROCESS_INFORMATION child{};
};

Process::Process(const std::vector<std::string>& arguments, const std::string& input)
    : system_(std::make_unique<System>()) {
    System& it = *system_;
    SECURITY_ATTRIBUTES inherited{sizeof inherited, nullptr, TRUE};
    REQUIRE(CreatePipe(&it.in[0], &it.in[1], &inherited, static_cast<DWORD>(input.size() + 1)) != 0);
    REQUIRE(CreatePipe(&it.out[0], &it.out[1], &inherited, 0) != 0);
    SetHandleInformation(it.in[1], HANDLE_FLAG_INHERIT, 0);
    SetHandleInformation(it.out[0], HANDLE_FLAG_INHERIT, 0);
    STARTUPINFOW start{};
    start.cb = sizeof start;
    start.dwFlags = STARTF_USESTDHANDLES;
    start.hStdInput = it.in[0];
    start.hStdOutput = start.hStdError = it.out[1];
    std::wstring line = quoted(arguments);
    REQUIRE(CreateProcessW(nullptr, line.data(), nullptr, nullptr, TRUE, 0, nullptr, nullptr, &start,
                           &it.child) != 0);
    CloseHandle(it.in[0]);
    CloseHandle(it.out[1]);
    DWORD written = 0;
    const auto size = static_cast<DWORD>(input.size());
    REQUIRE((size == 0 || WriteFile(it.in[1], input.data(), size, &written, nullptr) != 0));
    CloseHandle(it.in[1]);
}

Process::~Process() {
    for (const HANDLE handle : {system_->out[0], system_->child.hThread, system_->child.hProcess})
        CloseHandle(handle);
}

void Process::kill() const {
    TerminateProcess(system_->child.hProcess, 1);
}

std::string Process::said() {
    std::string text;
    std::array<char, 4096> piece{};
    DWORD got = 0;
    while (ReadFile(system_->out[0], piece.data(), static_cast<DWORD>(piece.size()), &got, nullptr) != 0 &&
           got > 0)
        text.append(piece.data(), got);
    WaitForSingleObject(system_->child.hProcess, INFINITE);
    return text;
}

}  // namespace halfsplit::test
