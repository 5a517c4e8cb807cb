// The process and its console by the calls of Windows.
#include "halfsplit/cli/process.hpp"

#include "base/calls_windows.hpp"
#include "base/wide_windows.hpp"
#include "cli/console.hpp"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <io.h>
#include <iostream>
#include <streambuf>
#include <string_view>

namespace halfsplit::cli {

namespace {

bool is_console(DWORD which) {
    DWORD mode = 0;
    return GetConsoleMode(GetStdHandle(which), &mode) != 0;
}

// Text to a console as UTF-16, which shows every character whatever code page the console is set to; setting
// that page would outlast the program. What is written comes in whole characters (shown_stream.hpp).
class ConsoleOut : public std::streambuf {
  public:
    ConsoleOut(std::ostream& stream, DWORD which)
        : stream_(stream), console_(GetStdHandle(which)), before_(stream.rdbuf(this)) {}
    ~ConsoleOut() override {
        send();
        stream_.rdbuf(before_);
    }
    ConsoleOut(const ConsoleOut&) = delete;
    ConsoleOut& operator=(const ConsoleOut&) = delete;

  private:
    static constexpr std::size_t enough = 8192;

    int overflow(int c) override {
        if (c == traits_type::eof()) return traits_type::not_eof(c);
        const char byte = traits_type::to_char_type(c);
        return xsputn(&byte, 1) == 1 ? c : traits_type::eof();
    }
    std::streamsize xsputn(const char* text, std::streamsize size) override {
        held_.append(text, static_cast<std::size_t>(size));
        return held_.size() < enough || send() ? size : 0;
    }
    int sync() override { return send() ? 0 : -1; }

    bool send() {
        const std::wstring text = wide_text(held_);
        held_.clear();
        for (std::size_t at = 0; at < text.size();) {
            DWORD written = 0;
            const auto left = static_cast<DWORD>(text.size() - at);
            if (WriteConsoleW(console_, text.data() + at, left, &written, nullptr) == 0 || written == 0)
                return false;
            at += written;
        }
        return true;
    }

    std::ostream& stream_;
    HANDLE console_;
    std::streambuf* before_;
    std::string held_;
};

// Sequences for bold and back understood; as before at the end. Where the console knows none they are not
// written (console_emphasis).
class Sequences {
  public:
    Sequences() : console_(GetStdHandle(STD_OUTPUT_HANDLE)) {
        if (GetConsoleMode(console_, &before_) == 0) return;
        changed_ = SetConsoleMode(
                       console_, before_ | ENABLE_PROCESSED_OUTPUT | ENABLE_VIRTUAL_TERMINAL_PROCESSING) != 0;
    }
    ~Sequences() {
        if (changed_) SetConsoleMode(console_, before_);
    }
    Sequences(const Sequences&) = delete;
    Sequences& operator=(const Sequences&) = delete;

  private:
    HANDLE console_;
    DWORD before_ = 0;
    bool changed_ = false;
};

bool understands_sequences() {
    DWORD mode = 0;
    return GetConsoleMode(GetStdHandle(STD_OUTPUT_HANDLE), &mode) != 0 &&
           (mode & ENABLE_VIRTUAL_TERMINAL_PROCESSING) != 0;
}

std::string variable(const char* name) {
    const char* value = std::getenv(name);
    return value == nullptr ? std::string() : value;
}

}  // namespace

struct Process::Console {
    Sequences sequences;
    std::unique_ptr<ConsoleOut> out, err;
};

Process::Process(int, char**) : console_(std::make_unique<Console>()) {
    int count = 0;
    LPWSTR* words = CommandLineToArgvW(GetCommandLineW(), &count);  // main() has them in the code page
    for (int i = 1; i < count; ++i) arguments_.push_back(utf8_text(words[i]));
    LocalFree(words);
    // Lines end as they were written: a log or a file behind ">" has the same bytes on every system.
    for (std::FILE* stream : {stdin, stdout, stderr}) _setmode(_fileno(stream), _O_BINARY);
    if (is_console(STD_OUTPUT_HANDLE))
        console_->out = std::make_unique<ConsoleOut>(std::cout, STD_OUTPUT_HANDLE);
    if (is_console(STD_ERROR_HANDLE))
        console_->err = std::make_unique<ConsoleOut>(std::cerr, STD_ERROR_HANDLE);
}

Process::~Process() = default;

bool Process::delivered() const {
    return std::cout || errno == EPIPE;
}

bool at_console() {
    return is_console(STD_INPUT_HANDLE) && is_console(STD_OUTPUT_HANDLE);
}

std::size_t console_columns() {
    CONSOLE_SCREEN_BUFFER_INFO info;
    if (GetConsoleScreenBufferInfo(GetStdHandle(STD_OUTPUT_HANDLE), &info) != 0) {
        const int width = info.srWindow.Right - info.srWindow.Left + 1;
        // An old console goes to the next line by itself behind the last column.
        if (width > 1) return static_cast<std::size_t>(understands_sequences() ? width : width - 1);
    }
    const int width = std::atoi(variable("COLUMNS").c_str());
    return width > 0 ? static_cast<std::size_t>(width) : 80;
}

bool console_emphasis() {
    return understands_sequences() && variable("TERM") != "dumb" && variable("NO_COLOR").empty();
}

std::optional<std::string> console_line() {
    constexpr wchar_t end_of_input = L'\x1a';  // Ctrl-Z
    const HANDLE console = GetStdHandle(STD_INPUT_HANDLE);
    std::wstring line;
    while (line.empty() || line.back() != L'\n') {
        wchar_t piece[256];
        DWORD got = 0;
        if (ReadConsoleW(console, piece, 256, &got, nullptr) == 0 || got == 0) break;
        line.append(piece, got);
    }
    if (line.empty() || line.front() == end_of_input) return std::nullopt;
    while (!line.empty() && (line.back() == L'\n' || line.back() == L'\r')) line.pop_back();
    return utf8_text(line);
}

}  // namespace halfsplit::cli
