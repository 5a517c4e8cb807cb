#include "support/console_page.hpp"

#include <algorithm>
#include <regex>
#include <sstream>
#include <stdexcept>

namespace halfsplit::test {

namespace {

const std::string left_out = "...";

bool begins(const std::string& line, const std::string& start) {
    return line.rfind(start, 0) == 0;
}

std::string without_end(std::string line) {
    line.erase(line.find_last_not_of(" \t\r") + 1);
    return line;
}

Lines tidied(const Lines& lines) {
    Lines result;
    for (const std::string& line : lines) result.push_back(without_end(line));
    while (!result.empty() && result.back().empty()) result.pop_back();
    return result;
}

// "console", or "json van.json" as both its words.
struct FenceOpening {
    std::string kind, file;
};

FenceOpening opening_of(const std::string& line) {
    std::istringstream words(line.substr(3));
    FenceOpening opening;
    words >> opening.kind >> opening.file;
    return opening;
}

class PageReader {
  public:
    explicit PageReader(const std::string& text) { page_.lines = lines_of_text(text); }

    ConsolePage read() {
        for (at_ = 0; at_ < page_.lines.size(); ++at_) {
            const std::string& line = page_.lines[at_];
            if (begins(line, "```")) {
                read_block(opening_of(line));
            } else if (begins(line, "    ")) {
                look_for_strays(line);
            }
        }
        return page_;
    }

  private:
    // From its first line to its last; afterwards `at_` is at the line that ends it.
    void read_block(const FenceOpening& opening) {
        const std::size_t from = at_ + 1;
        std::size_t end = from;
        while (end < page_.lines.size() && !begins(page_.lines[end], "```")) ++end;
        if (end == page_.lines.size()) wrong("a block without an end");
        if (!opening.file.empty()) {
            page_.steps.push_back({PageStep::Kind::File, at_, opening.file, false, {{from, {}}}});
        } else if (opening.kind == "console" && !begins(page_.lines[from], "$ ")) {
            if (page_.steps.empty() || !page_.steps.back().shown) wrong("a block that goes on with nothing");
            page_.steps.back().parts.push_back({from, {}});
        }
        for (at_ = from; at_ < end; ++at_) take(opening, page_.lines[at_]);
    }

    void take(const FenceOpening& opening, const std::string& line) {
        if (!opening.file.empty()) {
            page_.steps.back().parts.back().lines.push_back(line);
        } else if (opening.kind == "console") {
            if (begins(line, "$ ")) {
                page_.steps.push_back({PageStep::Kind::Command, at_, line.substr(2), true, {{at_ + 1, {}}}});
            } else {
                page_.steps.back().parts.back().lines.push_back(line);
            }
        } else if (opening.kind == "sh") {
            take_sh(line);
        } else if (opening.kind == "bat") {
            std::string command = line;
            std::replace(command.begin(), command.end(), '\\', '/');
            page_.steps.push_back({PageStep::Kind::Command, at_, command, false, {}});
        } else {
            look_for_strays(line);
        }
    }

    void take_sh(const std::string& line) {
        const std::string& before = page_.lines[at_ - 1];
        if (!before.empty() && before.back() == '\\') {
            page_.steps.back().text += "\n" + line;
        } else if (!line.empty() && line.front() != '#') {
            page_.steps.push_back({PageStep::Kind::Command, at_, line, false, {}});
        }
    }

    void look_for_strays(const std::string& line) {
        static const std::regex command(R"(^\s*(\$ )?halfsplit( .*)?$)");
        if (std::regex_match(line, command)) page_.stray.push_back(at_);
    }

    [[noreturn]] void wrong(const std::string& what) const {
        throw std::runtime_error("line " + std::to_string(at_ + 1) + ": " + what);
    }

    ConsolePage page_;
    std::size_t at_ = 0;
};

// Whether shown[i..] fits found[j..], where "..." stands for any lines.
bool fits(const Lines& shown, const Lines& found) {
    std::size_t i = 0, j = 0, after_gap = shown.size() + 1, tried = 0;
    while (j < found.size()) {
        if (i < shown.size() && shown[i] == left_out) {
            after_gap = ++i;
            tried = j;
        } else if (i < shown.size() && shown[i] == found[j]) {
            ++i, ++j;
        } else if (after_gap <= shown.size()) {
            i = after_gap;
            j = ++tried;
        } else {
            return false;
        }
    }
    while (i < shown.size() && shown[i] == left_out) ++i;
    return i == shown.size();
}

// Lines shown without a gap between them, and where among what came out they begin.
struct Piece {
    Lines lines;
    std::size_t part = 0;
    bool after_gap = false, before_gap = false;
    std::size_t start = 0;
};

std::vector<Piece> pieces_of(const PageStep& step) {
    std::vector<Piece> pieces;
    for (std::size_t part = 0; part < step.parts.size(); ++part) {
        bool gap = false;
        bool open = false;
        for (const std::string& line : tidied(step.parts[part].lines)) {
            if (line == left_out) {
                if (open) pieces.back().before_gap = true;
                gap = true;
                open = false;
                continue;
            }
            if (!open) pieces.push_back({{}, part, gap, false, 0});
            open = true;
            gap = false;
            pieces.back().lines.push_back(line);
        }
    }
    return pieces;
}

// Where each piece begins, by its first line. False where one cannot be found again.
bool find_again(std::vector<Piece>& pieces, const Lines& found) {
    std::size_t from = 0;
    for (Piece& piece : pieces) {
        const bool at_start = &piece == &pieces.front() && !piece.after_gap;
        piece.start = from;
        while (!at_start && piece.start < found.size() && found[piece.start] != piece.lines.front())
            ++piece.start;
        if (piece.start >= found.size()) return false;
        from = piece.start + 1;
    }
    return !pieces.empty();
}

// What came out, by part, with the same left out.
std::vector<Lines> shortened(const PageStep& step, const Lines& found) {
    std::vector<Lines> parts(step.parts.size());
    std::vector<Piece> pieces = pieces_of(step);
    if (!find_again(pieces, found)) {
        parts.front() = found;
        return parts;
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const std::size_t next = i + 1 < pieces.size() ? pieces[i + 1].start : found.size();
        const std::size_t length = pieces[i].before_gap ? pieces[i].lines.size() : next - pieces[i].start;
        Lines& part = parts[pieces[i].part];
        if (pieces[i].after_gap) part.push_back(left_out);
        const std::size_t stop = pieces[i].start + std::min(length, next - pieces[i].start);
        for (std::size_t line = pieces[i].start; line < stop; ++line) part.push_back(found[line]);
        const bool last = i + 1 == pieces.size() || pieces[i + 1].part != pieces[i].part;
        if (last && pieces[i].before_gap) part.push_back(left_out);
    }
    return parts;
}

}  // namespace

Lines lines_of_text(const std::string& text) {
    std::istringstream in(text);
    Lines lines;
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

ConsolePage read_console_page(const std::string& text) {
    return PageReader(text).read();
}

Lines lines_of(const PageStep& step) {
    Lines lines;
    for (const PageStep::Part& part : step.parts) {
        lines.insert(lines.end(), part.lines.begin(), part.lines.end());
    }
    return lines;
}

std::string typed_lines(const PageStep& command) {
    static const std::regex conversation(R"(^halfsplit (hunt|draft)( .*)?$)");
    static const std::regex prompt(R"(^[A-Za-z][^>]*> ?(.*)$)");
    if (!std::regex_match(command.text, conversation)) return {};
    std::string typed;
    std::smatch found;
    for (const std::string& line : lines_of(command)) {
        if (std::regex_match(line, found, prompt)) typed += found[1].str() + "\n";
    }
    return typed;
}

bool is_as_shown(const PageStep& command, const Lines& found) {
    const auto without_empty_lines = [](const Lines& lines) {
        Lines result;
        for (const std::string& line : tidied(lines)) {
            if (!line.empty()) result.push_back(line);
        }
        return result;
    };
    return fits(without_empty_lines(lines_of(command)), without_empty_lines(found));
}

std::string approved(const ConsolePage& page, const std::vector<Lines>& found) {
    std::string text;
    std::size_t at = 0;
    const auto copy_until = [&](std::size_t line) {
        for (; at < line; ++at) text += page.lines[at] + "\n";
    };
    for (std::size_t i = 0; i < page.steps.size(); ++i) {
        const PageStep& step = page.steps[i];
        if (!step.shown || is_as_shown(step, found[i])) continue;
        const std::vector<Lines> parts = shortened(step, tidied(found[i]));
        for (std::size_t k = 0; k < parts.size(); ++k) {
            copy_until(step.parts[k].line);
            for (const std::string& line : parts[k]) text += line + "\n";
            at += tidied(step.parts[k].lines).size();
        }
    }
    copy_until(page.lines.size());
    return text;
}

}  // namespace halfsplit::test
