// The conversation at the van: advice, prompt, one answer, its echo, and again. What is understood at a
// prompt depends on the step; events in full words and the single keys are understood at every prompt.
#pragma once

#include "halfsplit/cli/run.hpp"
#include "halfsplit/report/step_text.hpp"
#include "halfsplit/session/session.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::cli {

struct Manner {
    std::size_t columns = 0;  // 0: the terminal's, asked anew at every step
    bool bell = true;
    bool spoken = false;  // a step of the hunt as one line to be read out
};

class Conversation {
  public:
    Conversation(session::Session& session, Context& context, const Manner& manner);
    // Until the job is closed, `q`, or the end of input. Everything acknowledged is on disk by then.
    void run();

  private:
    enum class Turn { Again, NextStep, Leave };

    void show_step();
    Turn answer(const std::string& line);
    Turn single_key(const std::string& key);
    Turn undo(const std::string& steps);
    void show_spoken(const advice::Recommendation& advice);
    void ring();
    report::Screen screen() const;
    bool answer_step(const std::string& line);
    bool answer_question(const std::string& line);
    void answer_scan(const std::string& line);
    bool answer_safe_state(const std::string& line);
    bool answer_repair(const std::string& line);
    bool answer_all_back(const std::string& line);
    void enter(const std::vector<std::string>& words);
    void enter(const job::Event& event);
    void say(const std::string& text, std::size_t indent = 0);
    std::string prompt();
    bool single_line() const;

    session::Session& session_;
    Context& context_;
    Manner manner_;
    std::vector<std::string> words_;        // for completion
    std::size_t doubts_ = 0;                // of the step shown last
    std::size_t question_ = 0;              // of the intake, or of the proof
    std::optional<advice::Action> asking_;  // whose questions these are
};

}  // namespace halfsplit::cli
