// What there is to say of a step of a review beyond its own words, a label and a text each: the same on the
// screen and on the page.
#pragma once

#include "halfsplit/advice/review.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::report {

struct Fact {
    std::string_view label;  // in capitals what a lead should not miss
    std::string text;
};

class StepFacts {
  public:
    // Keeps a reference.
    explicit StepFacts(const advice::Review& review);

    // To be asked for every step in order: what a step leaves is told as a change to the one before.
    std::vector<Fact> of(const advice::ReviewStep& step);

  private:
    void add_corrections(const advice::ReviewStep& step);
    void add_what_it_told(const advice::ReviewStep& step);
    void add_outlook(const advice::ReviewStep& step);
    void add_heed(const advice::ReviewStep& step);

    std::map<job::Sequence, const advice::Contradiction*> contradictions_;
    std::map<job::Sequence, const advice::Detour*> detours_;
    std::vector<Fact> facts_;
    std::string outlook_;
    bool two_faults_ = false;
};

// "reading, 9 min"; of what followed from another step "follows".
std::string step_title(const advice::ReviewStep& step);

}  // namespace halfsplit::report
