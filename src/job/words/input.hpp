// The words of one entry, taken from left to right, and what is wrong with one of them.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::job {

// What goes into a Finding besides its place.
struct Trouble {
    std::string id, message, expected, nearest, next_step;
};

class Input {
  public:
    // Refuses text that is not UTF-8. A last word `minutes=N` is taken off and kept apart.
    explicit Input(std::vector<std::string> words);

    const std::optional<double>& minutes() const { return minutes_; }
    bool done() const { return at_ == words_.size(); }
    bool is_last() const { return at_ + 1 == words_.size(); }
    // The next word; empty at the end.
    const std::string& peek() const;
    // Refuses, saying what was expected, when no word is left.
    const std::string& take(const std::string& expected, const std::string& next_step);
    const std::string& take() { return words_[at_++]; }
    // All that is left, joined by spaces.
    std::string take_rest();
    void require_done(const std::string& after) const;

    // Throws InputError with the place of the word taken last, or of the end when none is left to be taken.
    [[noreturn]] void refuse_last(Trouble trouble) const {
        refuse(at_ == 0 ? 0 : at_ - 1, std::move(trouble));
    }
    [[noreturn]] void refuse_next(Trouble trouble) const { refuse(at_, std::move(trouble)); }

  private:
    [[noreturn]] void refuse(std::size_t word, Trouble trouble) const;
    void take_minutes();

    std::vector<std::string> words_;
    std::string line_;
    std::size_t at_ = 0;
    std::optional<double> minutes_;
};

}  // namespace halfsplit::job
