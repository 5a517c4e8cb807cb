// Where a job stands: the fold of its records. Pure; never plans, never touches a disk.
#pragma once

#include "halfsplit/job/event.hpp"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace halfsplit::job {

// The state of the circuit a reading was taken in. A repair changes the circuit: what was read before it
// stays evidence of the state before it, and `repairs` tells the two apart.
struct CircuitState {
    std::vector<std::string> apart;     // part ids, sorted
    std::vector<std::string> reseated;  // had been apart and are together again; sorted
    std::size_t repairs = 0;            // how many of State::repairs had been done
    // As told last; a scan, or the proof of a repair, since then had the battery on and the bus awake.
    // Nothing told: on and awake.
    bool battery_off = false;
    bool bus_asleep = false;
    bool operator==(const CircuitState&) const = default;
};

struct TakenReading {
    Sequence sequence = 0;
    UnixSeconds time = 0;
    Reading reading;
    CircuitState state;
};

struct TakenDistance {
    Sequence sequence = 0;
    Distance distance;
    CircuitState state;
};

struct DoneRepair {
    Sequence sequence = 0;
    Repair repair;
};

struct SeenPart {
    Sequence sequence = 0;
    Seen seen;
    std::size_t repairs = 0;
};

struct Scan {
    Sequence sequence = 0;
    Answers answers;
    CircuitState state;
};

struct State {
    Opened opened;
    std::optional<Intake> intake;         // newest; an intake is complete in itself
    std::optional<SafeState> safe_state;  // newest
    std::optional<Sequence> safe_state_at;
    std::vector<Scan> scans;
    std::vector<TakenReading> readings;  // in order; amended ones in their old place with their new content
    std::vector<TakenDistance> distances;
    std::vector<SeenPart> seen;
    std::vector<DoneRepair> repairs;
    std::vector<std::string> covers_off;  // in the order they came off
    std::vector<std::string> apart;  // unplugged and not yet plugged again, in the order they were unplugged
    std::vector<std::string> reseated;  // plugged again, in order
    std::string clip;                   // point name; empty: the network's own
    std::optional<Verified> verified;   // since the last repair
    std::optional<Sequence> verified_at;
    std::optional<Recommended>
        recommended;  // newest one still valid: nothing since that changes the evidence
    std::vector<std::string> remarks;
    std::vector<harness::Difference> differences;  // between the harness file and the vehicle, in order
    std::optional<harness::MeterProfile> meter;    // newest
    PinsTried pins;                                // all together
    bool paused = false;                           // the last record that counts is a pause
    bool closed = false;                           // and nothing since but remarks, pauses and corrections
    std::set<Sequence> undone;                     // records that no longer count
    std::vector<Sequence>
        entered;        // records that count and that a person entered: what may be undone; rising
    Sequence last = 0;  // number of the last record
    double minutes_spent = 0;
};

// The state of the circuit that a reading taken now would be in.
CircuitState circuit_now(const State& state);

// Applies undo and amend first, then folds in order; linear in the records (but for the copies of `apart`).
//   undo      the target no longer counts, nor do the records it implied (those that follow it directly,
//             marked as implied); an undo of an undo restores. The record that opens the job cannot be undone
//             or amended.
//   amend     the new content counts in the old place: same time, same state of the circuit. When the new
//             content is somewhere else, the records that the old one implied no longer count.
//   advice    stays valid until a record changes the evidence: anything but remarks, pauses and further
//             advice, and an undo or amend of something that came before the advice.
//   minutes   the clock's from each record that counts to the next; nothing from a pause or the end of the
//             job to the record after it, whatever that is; entered minutes stand in place of the clock's of
//             their record. A clock that was set back counts nothing.
// Throws nothing on records that refer to unknown sequences: they have no effect and are reported by
// problems().
State replay(const std::vector<Record>& records);

// The same minutes by position of the record that they led up to; 0 for a record that does not count. They
// sum to `minutes_spent`.
std::vector<double> minutes_by_record(const std::vector<Record>& records);

// What in the records cannot be followed (an undo of nothing, a first record that does not open the job, a
// harness text that is not the one its fingerprint was taken of), in words, in order.
std::vector<std::string> problems(const std::vector<Record>& records);

// The newest record that `u` would undo: what the technician entered last and is not undone. Passes over
// advice, undos and implied records (which go with the record that implied them).
std::optional<Sequence> last_undoable(const std::vector<Record>& records);

}  // namespace halfsplit::job
