// The one file that knows the terminal of the system: POSIX for its width, libedit for editing a line.
#include "halfsplit/base/text.hpp"
#include "halfsplit/cli/terminal.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <histedit.h>
#include <iostream>
#include <string_view>
#include <sys/ioctl.h>
#include <thread>
#include <unistd.h>

namespace halfsplit::cli {

namespace {

std::size_t width_of_terminal() {
    winsize size{};
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
    const char* columns = std::getenv("COLUMNS");
    const int width = columns != nullptr ? std::atoi(columns) : 0;
    return width > 0 ? static_cast<std::size_t>(width) : 80;
}

class LibeditTerminal : public Terminal {
  public:
    LibeditTerminal() : line_(el_init("halfsplit", stdin, stdout, stderr)), history_(history_init()) {
        HistEvent event;
        history(history_, &event, H_SETSIZE, 500);
        el_set(line_, EL_CLIENTDATA, this);
        el_set(line_, EL_PROMPT, &LibeditTerminal::show_prompt);
        el_set(line_, EL_EDITOR, "emacs");
        el_set(line_, EL_HIST, history, history_);
        el_set(line_, EL_ADDFN, "complete-word", "complete the word", &LibeditTerminal::complete);
        el_set(line_, EL_BIND, "^I", "complete-word", nullptr);
        el_set(line_, EL_SIGNAL, 1);
    }
    ~LibeditTerminal() override {
        history_end(history_);
        el_end(line_);
    }
    LibeditTerminal(const LibeditTerminal&) = delete;
    LibeditTerminal& operator=(const LibeditTerminal&) = delete;

    std::optional<std::string> read_line(const std::string& prompt,
                                         const std::vector<std::string>& words) override {
        prompt_ = prompt;
        words_ = words;
        std::cout.flush();
        int length = 0;
        const char* text = el_gets(line_, &length);
        if (text == nullptr || length <= 0) {
            std::cout << '\n';
            return std::nullopt;
        }
        std::string line(text, static_cast<std::size_t>(length));
        while (!line.empty() && (line.back() == '\n' || line.back() == '\r')) line.pop_back();
        HistEvent event;
        if (!line.empty()) history(history_, &event, H_ENTER, line.c_str());
        return line;
    }

    std::size_t columns() const override { return width_of_terminal(); }
    bool emphasis() const override {
        const char* no_color = std::getenv("NO_COLOR");
        const char* kind = std::getenv("TERM");
        const bool able = kind != nullptr && std::string_view(kind) != "dumb";
        return able && (no_color == nullptr || *no_color == '\0');
    }
    void ring(int times) override {
        using namespace std::chrono_literals;
        for (int i = 0; i < times; ++i) {
            if (i > 0) std::this_thread::sleep_for(250ms);
            std::cout << '\a' << std::flush;
        }
    }

  private:
    static LibeditTerminal& self(EditLine* line) {
        void* data = nullptr;
        el_get(line, EL_CLIENTDATA, &data);
        return *static_cast<LibeditTerminal*>(data);
    }

    static char* show_prompt(EditLine* line) { return self(line).prompt_.data(); }

    // Completes the word before the cursor as far as all that fit agree; shows them when they differ at once.
    static unsigned char complete(EditLine* line, int) {
        const LineInfo* info = el_line(line);
        const char* start = info->cursor;
        while (start > info->buffer && start[-1] != ' ') --start;
        const std::string begun(start, info->cursor);
        const std::vector<std::string> fitting = self(line).fitting(begun);
        if (fitting.empty()) return CC_ERROR;
        std::string common = fitting.front();
        for (const std::string& word : fitting) {
            const auto differ = std::mismatch(common.begin(), common.end(), word.begin(), word.end()).first;
            common.erase(differ, common.end());
        }
        if (fitting.size() == 1) common += ' ';
        if (common.size() > begun.size()) {
            el_insertstr(line, common.c_str() + begun.size());
            return CC_REFRESH;
        }
        std::cout << '\n' << wrap(join(fitting, "  "), width_of_terminal()) << '\n';
        return CC_REDISPLAY;
    }

    std::vector<std::string> fitting(const std::string& begun) const {
        std::vector<std::string> result;
        for (const std::string& word : words_) {
            if (word.compare(0, begun.size(), begun) == 0) result.push_back(word);
        }
        return result;
    }

    EditLine* line_;
    History* history_;
    std::string prompt_;
    std::vector<std::string> words_;
};

}  // namespace

std::unique_ptr<Terminal> system_terminal() {
    if (isatty(STDIN_FILENO) != 0 && isatty(STDOUT_FILENO) != 0) return std::make_unique<LibeditTerminal>();
    return std::make_unique<PlainTerminal>(std::cin, std::cout, width_of_terminal());
}

}  // namespace halfsplit::cli
