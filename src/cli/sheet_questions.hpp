// A wire sheet by question: hop by hop along the bus, as a drawing is read. The sheet is written after each
// line, so that it can be broken off anywhere: the same command goes on from what is there.
#pragma once

#include "halfsplit/cli/run.hpp"
#include "halfsplit/draft/unfinished.hpp"

#include <cstddef>
#include <functional>
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

    // What the questions about one hop gave, in the words of the sheet.
    struct Hop {
        std::string name;  // with its half
        bool begins = false;
        std::string cavities, kind, place, words, wire, colours;

        std::string plain_name() const { return name.substr(0, name.find('.')); }
        std::string thing() const;
        std::string line() const;
    };

    Said ask_file();
    Said ask_line();
    Said ask_head();
    Said ask_start();
    Said ask_hop();
    Said ask_mending();
    // One thing and the wire to it (none where the bus begins), a question at a time; adds the line.
    Said ask_thing(const std::string& name, bool begins);
    Said ask_cavities(Hop& hop);
    Said ask_kind(Hop& hop);
    Said ask_place(Hop& hop);
    Said ask_words(Hop& hop);
    Said ask_wire(Hop& hop);
    Said ask_colours(Hop& hop);
    // `back` goes to the question before; Back where it was the first.
    Said in_turn(const std::vector<std::function<Said()>>& questions);
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
