// Line editing by libedit: history, completion, a line corrected anywhere.
#include "halfsplit/base/text.hpp"

#include "cli/console.hpp"
#include "cli/line_keys.hpp"
#include "cli/terminal_console.hpp"

#include <algorithm>
#include <clocale>
#include <cstdio>
#include <cwchar>
#include <histedit.h>
#include <iostream>

namespace halfsplit::cli {

namespace {

class LibeditTerminal : public ConsoleTerminal {
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
        el_set(line_, EL_GETCFN, &LibeditTerminal::read_key);
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
        el_resize(line_);  // since the last line
        // Before the prompt is there, as libedit does it after: what is typed at once would show twice.
        el_set(line_, EL_PREP_TERM, 1);
        int length = 0;
        const TerminalSignals signals;
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

  private:
    static LibeditTerminal& self(EditLine* line) {
        void* data = nullptr;
        el_get(line, EL_CLIENTDATA, &data);
        return *static_cast<LibeditTerminal*>(data);
    }

    // As libedit wants it: 1 for a character, 0 at the end of what is typed.
    static int read_key(EditLine* line, wchar_t* key) {
        std::mbstate_t letter{};
        char byte = 0;
        for (Came came = wait_for_byte(byte); came != Came::End; came = wait_for_byte(byte)) {
            if (came != Came::Byte) {
                take_up(came, line);
                continue;
            }
            const std::size_t length = std::mbrtowc(key, &byte, 1, &letter);
            if (length <= 1) return 1;
            if (length == static_cast<std::size_t>(-1)) letter = {};  // no letter begins so
        }
        return 0;
    }

    static void take_up(Came signal, EditLine* line) {
        if (signal == Came::Resize) {
            el_resize(line);
            return;
        }
        if (signal == Came::Stop) {
            el_set(line, EL_PREP_TERM, 0);
            stop();
        }
        el_set(line, EL_PREP_TERM, 1);
        el_set(line, EL_REFRESH);
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
        std::cout << '\n' << wrap(join(fitting, "  "), console_columns()) << '\n';
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

std::string line_editor() {
    return "libedit";
}

std::unique_ptr<Terminal> console_terminal() {
    // What is typed is UTF-8, whatever LANG says: libedit drops what the locale has no letter for.
    if (std::setlocale(LC_CTYPE, "C.UTF-8") == nullptr) std::setlocale(LC_CTYPE, "");
    return std::make_unique<LibeditTerminal>();
}

}  // namespace halfsplit::cli
