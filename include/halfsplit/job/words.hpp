// Events as people type them, at the prompt or after `halfsplit note`, and as they are told back.
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
    // Volt: a bare figure is volts, and the battery is connected for it, whatever the job says now.
    Quantity quantity = Quantity::Ohm;
    bool moved = false;  // the reading is to be taken while the loom is moved
};

// One event from words. The grammar, one line each:
//   0.4 | 3.1k | OL | o | c | ? | -          the awaited reading: ohms, open, closed (beep), not sure, could
//                                            not reach; where volts are awaited, 2.5 is volts
//   reading A B VALUE [moved] [wet]          two terminals, or one and ground | supply | clip
//   reading A B 2.5V                         volts; VALUE may also be spelled open | closed
//   distance capacitance|ohms|loop FROM TO [h|l|hl] FIRST SECOND
//                                            both ends as points or terminals; h and l: that line to ground,
//                                            hl: line to line; farad or ohm at either end, or the arms P and
//                                            Q of the bridge at FROM. Two terminals say the line, but for
//                                            ohms
//   intake complaint=... recent=... conditions=wet,hot replaced=M1,M2
//   safe ignition=off bus=asleep battery=off waited=10
//   answers all | none                       every module of the network
//   answers M1,M2 | silent M3 | M1 silent M3 one list alone: the rest is on the other side; both: as told,
//                                            the rest not scanned
//   seen PART faulty|sound|unsure|unreached [words]    also the verdict alone [words] for the awaited part
//   cover off|on COVER    unplugged PART    plugged PART    clip POINT
//   repair PART reseated|cleaned|repaired|replaced|bridged [words]
//   verified hl=60.2 answers=all|some codes=clear|stored complaint=gone|back
//   meter fine    meter NAME percent=0.8 digits=3 counts=6000 leads=0.2 limit=40M buzzer=20-120
//   pins tried=20 slips=1                    pins known to be good, and how many of them read wrong
//   remark words    pause    resume    close    undo [N]    amend N EVENT
// A trailing `minutes=N` sets the minutes of any of them. Names are taken without regard to case where that
// leaves one only, and stand in the event as in the harness. `clip` becomes the terminal of the clip's point
// on the line of the other tip. intake, safe and verified add to what was said before, so that the newest is
// complete. In `amend N`, a bare value is the reading N again, and a verdict the part seen in N.
//
// Throws InputError: file name "input", line 1, the column of the word, what was expected, the nearest name,
// what to type. Its ids:
//   event-word-missing, event-word-unknown, event-word-extra, event-name-unknown, event-value
//   event-not-possible     understood, but it cannot be so: a splice unplugged, an undo of nothing
//   event-nothing-awaited  a bare value or verdict without an expectation
//   event-live-bus         ohms while the job says that the battery is connected
//   event-dead-bus         volts while it says that the battery is off
//   event-high-voltage     more than most_volts
//   event-too-long         more than most_entry
Event parse_event(const std::vector<std::string>& words, const harness::Harness& harness, const State& state,
                  const Expectation& expectation);

// Above this a reading is no longer one of a low-voltage vehicle's bus: 60 V DC is the limit of voltage class
// A (ISO 6469-3; from memory).
inline constexpr double most_volts = 60;
// Above this a meter shows OL; a larger number is a slip of the finger. Common practice, no source.
inline constexpr double most_ohms = 1e9;
// The most minutes that one event may be said to have taken: a day.
inline constexpr double most_minutes = 1440;
// The longest entry, in bytes: some four pages of a remark.
inline constexpr std::size_t most_entry = 10'000;

// First words that may start an event, for completion and "did you mean".
const std::vector<std::string>& event_words();

// The part that a word names, by itself or by a half, a terminal or a point of it ("X3", "X3.a", "X3.a:4").
// Throws InputError (event-name-unknown) with the nearest name.
harness::Index part_named(const std::string& word, const harness::Harness& harness);

// Where a measured distance puts the fault: "3.02 m from X1.b:4/5, give or take 0.21 m; that is in run W4
// (floor), 0.52 m from its end at X1.b:4, with X2 within that". The uncertainty is one standard deviation.
// What a line without an open would read as well is said.
std::string where_it_lies(const Distance& distance, const harness::Harness& harness);

// The event in plain words, whole sentences in one line without control characters, to be wrapped by the
// caller: "Line H, X3.a cavity 4 (yellow with a black stripe) to DS cavity 6: 240 ohm." Names that the
// harness does not know stand as they are.
std::string in_words(const Event& event, const harness::Harness& harness);

}  // namespace halfsplit::job
