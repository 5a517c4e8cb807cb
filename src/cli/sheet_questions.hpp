// A wire sheet by question: hop by hop along the bus, as a drawing is read. The sheet is written after each
// line, so that it can be broken off anywhere: the same command goes on from what is there.
#pragma once

#include "halfsplit/cli/run.hpp"
#include "halfsplit/draft/unfinished.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::cli {

class SheetQuestions {
  public:
    // `file`: the sheet; empty: it is asked for.
    SheetQuestions(Context& context, std::string file, std::size_t columns);
    // Until `done` (true), `q` or the end of input. Every line that was acknowledged is on disk by then.
    bool run();
    const std::string& file() const { return file_; }

  private:
    enum class Said { Answer, Back, Done, Leave };
    struct Question {
        std::string prompt, usual, help;
        std::vector<std::string> words;  // for completion
    };

    Said ask_file();
    Said ask_line();
    Said ask_head();
    Said ask_start();
    Said ask_hop();
    Said ask_mending();
    // What a thing needs: cavities, what it is, where, words. `line`: the words of the hop from its name on.
    Said ask_thing(const std::string& name, bool as_start, std::string& line);
    Said ask_kind(const std::string& name, std::size_t pairs, bool as_start, std::string& line);
    Said ask_place(const std::string& name, std::string& line);
    Said ask_wire(const std::string& thing, std::string& line);
    Said ask(const Question& question, std::string& answer);

    // What is wrong with the sheet once this line is added; says so, wrapped to the screen.
    bool refused(const std::string& line);
    bool whole_line(const std::string& answer);
    void add(const std::string& line);
    void take_back();
    void show();
    void say(const std::string& text, std::size_t indent = 0);
    bool known(const std::string& name) const;
    std::vector<std::string> names() const;

    Context& context_;
    std::string file_, text_;
    std::size_t columns_;
    draft::DraftRules rules_;
    draft::Unfinished state_;
};

}  // namespace halfsplit::cli
