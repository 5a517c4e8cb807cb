// Events as people type them, at the prompt or after `halfsplit note`, and as they are told back in plain words.
#pragma once

#include "halfsplit/base/finding.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"
#include "halfsplit/job/state.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::job {

// What a bare value or key is an answer to: the tips of the recommended reading, or the part to be looked at.
struct Expectation {
    std::string red, black;
    std::string part;
};

// One event from words. Throws InputError (what was expected, nearest name, an example). The grammar, one line each:
//   0.4 | 3.1k | OL | o | c | ? | -            the awaited reading: ohms, open, closed (beep), not sure, could not reach
//   reading A B VALUE [moved]                  between two terminals, or a terminal and ground | supply | clip
//   reading A B 2.5V                           volts
//   intake complaint=… conditions=… recent=… replaced=…
//   safe ignition=off bus=asleep battery=off waited=10
//   answers all | answers M1,M2 silent M3      (either list may be left out: the rest of the modules)
//   seen PART faulty|sound|unsure [words…]     also: faulty | sound [words…] for the awaited part
//   cover off|on COVER      unplugged PART     plugged PART      clip POINT
//   repair PART reseated|cleaned|repaired|replaced|bridged [words…]
//   verified hl=60.2 answers=all codes=clear complaint=gone
//   remark words…   pause   resume   close   undo [N]   amend N EVENT…
// A trailing `minutes=N` sets the minutes of any of them.
Event parse_event(const std::vector<std::string>& words, const harness::Harness& harness, const State& state,
                  const Expectation& expectation);

// First words that may start an event, for completion and "did you mean".
const std::vector<std::string>& event_words();

// The event in plain words, full sentences of one line: "H at X3.a cavity 4 to the clip: open (OL)".
std::string in_words(const Event& event, const harness::Harness& harness);

}  // namespace halfsplit::job
