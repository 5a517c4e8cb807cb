// Where a job stands: the fold of its records. Pure; never plans, never touches a disk.
#pragma once

#include "halfsplit/job/event.hpp"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace halfsplit::job {

// The state of the circuit a reading was taken in.
struct CircuitState {
    std::vector<std::string> apart;  // part ids, sorted
    std::size_t repairs = 0;         // how many of State::repairs had been done
    bool battery_off = false;
    bool bus_asleep = false;
};

struct TakenReading {
    Sequence sequence = 0;
    UnixSeconds time = 0;
    Reading reading;
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
    std::optional<Intake> intake;
    std::optional<SafeState> safe_state;
    std::vector<Scan> scans;
    std::vector<TakenReading> readings;  // in order; amended ones with their new content
    std::vector<SeenPart> seen;
    std::vector<DoneRepair> repairs;
    std::vector<std::string> covers_off;  // in the order they came off
    std::vector<std::string> apart;       // unplugged and not yet plugged again
    std::string clip;                     // point name; empty: the network's own
    std::optional<Verified> verified;     // since the last repair
    std::optional<Sequence> verified_at;
    std::optional<Recommended> recommended;  // newest one still valid: nothing but remarks and pauses since
    std::vector<std::string> remarks;
    bool paused = false, closed = false;
    std::set<Sequence> undone;            // records that no longer count
    Sequence last = 0;
    double minutes_spent = 0;             // clock minutes, pauses left out, entered minutes in their place
};

// Applies undo and amend first (an undo of an undo restores), then folds in order. A reading, a look, or a repair that
// belongs to an undone record goes with it, and so do the records it implied. Throws nothing on records that refer to
// unknown sequences: those are reported by problems().
State replay(const std::vector<Record>& records);

// What in the records cannot be followed (an undo of nothing, a first record that does not open the job), in words.
std::vector<std::string> problems(const std::vector<Record>& records);

// The newest record that `u` would undo: what the technician entered last and is not undone.
std::optional<Sequence> last_undoable(const std::vector<Record>& records);

}  // namespace halfsplit::job
