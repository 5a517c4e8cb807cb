// A recommendation as text for a small screen: the strip, the suspects, where to go, what to open, where to
// probe, what it costs, what each outcome would leave. Pure: the same data gives the same text.
#pragma once

#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/harness/harness.hpp"

#include <cstddef>
#include <string>

namespace halfsplit::report {

struct Screen {
    std::size_t columns = 80;  // at least 30
    bool emphasis = false;     // bold for the step itself; nothing is told by it alone
};

// Everything above the prompt, with its line ends.
std::string step_text(const advice::Recommendation& advice, const harness::Harness& harness,
                      harness::Index network, const Screen& screen);

// The same for a conversation, where `why` and `others` (aside_text.hpp) tell the rest: shorter, and with how
// far the job has come. `spent_minutes`: labour until now.
std::string turn_text(const advice::Recommendation& advice, const harness::Harness& harness,
                      harness::Index network, double spent_minutes, const Screen& screen);

// The step in a few words, for the last line: "X2.a:1 to clip DS:6".
std::string prompt_text(const advice::Recommendation& advice);
// What `note` takes for an answer to it; empty when the job is closed.
std::string note_text(const advice::Recommendation& advice);

// The suspects as a list, likeliest first.
std::string suspects_text(const advice::Recommendation& advice, const Screen& screen);

}  // namespace halfsplit::report
