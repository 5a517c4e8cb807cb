// A saved job in hindsight, as data: what was done, what each step told, where it left the advice, what it
// cost, and what is still open. Nothing here is planned anew: expected minutes and detours come from the
// advice in the log.
//
// Names are those of the harness file, minutes are labour, probabilities go from 0 to 1.
#pragma once

#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/base/clock.hpp"
#include "halfsplit/job/event.hpp"
#include "halfsplit/job/state.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::advice {

struct Named {
    std::string id, name;
};
std::string in_words(const Named& named);  // "kick (kick panel)"

// What was suspected at a moment. A suspect is a part with a chance of 1 % or more.
struct Outlook {
    std::size_t suspects = 0;
    double bits = 0;                  // doubt: entropy of where the fault is, see Told
    std::vector<PartChance> leading;  // the suspects, likeliest first
    double nothing_wrong = 0;         // chance that this bus is sound
    bool two_faults = false;          // no single fault carries the readings, or a repair is behind us
};

// What one reading, look, scan or proof told when it was entered.
struct Told {
    // Entropy (Shannon 1948) of where the fault is - over parts and "nothing wrong", made to sum to 1 -
    // before the record less that after it, in bits. Below 0: it left more doubt than there was.
    double bits = 0;
    double moved = 0;  // share of the belief that went from one of them to another, 0 to 1
};
// A reading or look that tells less, and moves less, is called pointless.
inline constexpr double pointless_bits = 0.02;
inline constexpr double pointless_move = 0.01;

// What minutes went into. The log has one figure for a step; how it falls apart is an estimate: walking and
// taking off covers by the harness file's figures, as far as the minutes go, and the rest is the work itself.
enum class Work : std::uint8_t {
    Preparing,  // intake, who answers, the safe state
    Travel,
    Opening,
    Probing,  // readings, looks, moving the clip, unplugging
    Repair,
    Proof,
    Refit,  // covers on, plugged in again
    Other,  // remarks, corrections, the meter
};
std::string_view word(Work work);  // "preparing", "travel", "opening", "probing", "repair", ...

struct Spent {
    Work work = Work::Other;
    double minutes = 0;
};

// How a reading or a look stands to the advice in the log.
enum class Heed : std::uint8_t {
    NoAdvice,  // none was given, or what was given had been answered already
    Followed,
    Detour,     // another reading or look was advised
    OtherStep,  // something else was advised (the repair, the proof)
};
std::string_view word(Heed heed);  // "no-advice", "followed", "detour", "other-step"

// A record of the job as it was entered. The opening and the advice are not steps.
struct ReviewStep {
    job::Sequence sequence = 0;
    UnixSeconds time = 0;
    job::Event event;
    std::string in_words;            // whole sentences
    bool implied = false;            // follows from the step before it
    bool counts = true;              // at the end of the job
    job::Sequence undone_by = 0;     // 0: by none
    job::Sequence amended_by = 0;    // 0: by none
    std::string amended_to;          // what counts in its place, in words
    double minutes = 0;              // since the step before it; an undo can take entered minutes away
    std::vector<Spent> work;         // what of the bill at the end is this step's, in order; empty: nothing
    job::CircuitState state;         // the circuit as it was when the step was entered
    std::optional<Told> told;        // of evidence
    std::optional<Outlook> outlook;  // after it, where it may have changed what is suspected
    bool pointless = false;          // reading, look
    job::Sequence repeat_of = 0;     // reading, look: the same in the same state of the circuit; 0: none
    Heed heed = Heed::NoAdvice;      // reading, look
    job::Sequence advice = 0;        // the advice it is held against; 0: none
    std::string advised;             // what that was, in short: "X2.a:1 to DS:6", "look at X1", "verify"
};

struct Detour {
    enum class Basis : std::uint8_t {
        Alternative,  // expected minutes of the hunt, from the alternatives that the advice listed
        Labour,       // labour of the step alone, both taken from where the technician stood
        Unknown,      // the harness does not know what was touched
    };
    job::Sequence sequence = 0, advice = 0;
    std::string advised, done;
    Basis basis = Basis::Unknown;
    double more_minutes = 0;  // below 0: less
    bool counts = true;
    bool found_it = false;  // the part was seen faulty and later repaired
};
std::string_view word(Detour::Basis basis);  // "alternative", "labour", "unknown"

// A reading that the likeliest explanation did not carry (chance of a slip or a wrong wire above one half),
// when it was taken or later.
struct Contradiction {
    Doubt doubt;                   // as it stood first; as it stands at the end when it still does not fit
    job::Sequence since = 0;       // the record after which it did not fit
    double chance_at_most = 0;     // greatest chance of a slip after any record
    std::optional<double> at_end;  // that chance at the end; empty when the reading no longer counts
    job::Sequence reread_by =
        0;  // the same reading in the same state, taken later, that fits at the end; 0: none
    job::Sequence undone_by = 0, amended_by = 0;
};
inline constexpr double contradicts = 0.5;
// Does it stand against the rest of the log at the end, never corrected and never read again?
inline bool unsettled(const Contradiction& contradiction) {
    return contradiction.at_end.value_or(0) > contradicts && contradiction.reread_by == 0;
}

// A reading that much was concluded from, and that may be wrong for a reason of its own.
enum class Weakness : std::uint8_t {
    Open,      // a bad probe contact reads the same, and it was not read again
    Beep,      // a buzzer sounds at tens of ohms too
    Doubtful,  // neither, and it fits badly: chance of a slip or a wrong wire of a tenth or more
};
std::string_view word(Weakness weakness);  // "open", "beep", "doubtful"
struct WeakEvidence {
    job::Sequence sequence = 0;
    std::string in_words;
    Weakness weakness = Weakness::Open;
    double moved = 0;           // share of the belief that it moved when it was entered
    double chance_of_slip = 0;  // at the end: of a slip or a wrong wire
};
// A reading that moves less of the belief is not relied on.
inline constexpr double relied_on = 0.1;
inline constexpr double doubtful = 0.1;

// What is proven by the last proof after a repair and before the next one.
enum class Proof : std::uint8_t {
    None,     // not tried
    Partial,  // nothing speaks against it, but the complaint was not tried again
    NotCured,
    Cured,  // complaint gone, nothing known to speak against it
};
std::string_view word(Proof proof);  // "none", "partial", "not-cured", "cured"

// How well the fault is established: of several causes, the one that is established least.
enum class FaultProof : std::uint8_t {
    None,       // no cause is known
    Suspected,  // repaired, and it may well have been the cause
    Read,       // nobody saw it; the readings held it for all but certain
    Seen,       // seen by eye
};
std::string_view word(FaultProof proof);  // "none", "suspected", "read", "seen"
inline constexpr double all_but_certain = 0.95;

struct Look {
    job::Sequence sequence = 0;
    std::string what;  // in the technician's words
};

struct ReviewedRepair {
    job::Sequence sequence = 0;
    job::Repair repair;
    std::string part_name;
    std::string in_words;  // the repair, a sentence
    // The likeliest fault of the part, just before the repair; empty when the belief held none.
    std::string fault, fault_in_words;
    double fault_chance = 0;        // of that fault
    double part_chance = 0;         // of any fault of the part
    double in_hindsight = 0;        // chance, at the end of the job, that the part had been at fault
    std::vector<Look> seen_faulty;  // proof of the fault, since the repair before
    Proof proof = Proof::None;
    job::Sequence proof_sequence = 0;
    std::optional<job::Verified> verified;
    // Cured; else by in_hindsight: likelier than not where nobody tried, all but certain where it did not
    // cure.
    bool cause = false;
};

struct OpenEnds {
    bool closed = false, paused = false;
    std::vector<Named> covers_off, parts_apart;
    std::vector<Named> faulty_not_repaired;  // seen to be faulty, no repair since
    std::string advised;                     // what was advised last and not yet done; empty: nothing
    Outlook outlook;                         // at the end
    std::vector<SuspectView> suspects;       // at the end, 1 % or more, up to five; empty once cured
};

struct ReviewedMinutes {
    double spent = 0;  // to bill
    double away = 0;   // on the clock, but paused or closed: not in `spent`
    std::size_t pauses = 0;
    std::size_t entered_by_hand = 0;  // steps with minutes of their own
    job::Sequence first_advice = 0;   // the first that advised a reading or a look; 0: none
    double expected = 0, worst = 0;   // by that advice, from there to the find, refitting of covers included
    double before_advice = 0;         // spent when it was given
    std::optional<double> to_find;    // spent from there until the last cause was seen faulty, or repaired
    std::vector<Spent> by_work;       // sums to `spent`, in the order of Work; kinds without any left out
};

// The file that the job was read from.
struct LogState {
    std::size_t records = 0;
    std::uint64_t bytes = 0;       // up to the end of the last record; 0: not read from a file
    std::uint64_t torn_bytes = 0;  // of a record cut short behind it, left out; 0: none
    bool line_end_missing = false;
    std::string checksum;  // of the last record, and by it of all before
    std::string harness_sha256;
    bool harness_matches = false;  // the harness text has that fingerprint
    std::string program_version;   // that opened the job
};

struct Review {
    std::string vehicle, title, network, network_name, harness_file;
    UnixSeconds opened = 0, last = 0;  // times of the first and the last record
    job::Intake intake;                // newest
    bool has_intake = false;
    Outlook start;                  // before anything was known but the harness
    std::vector<ReviewStep> steps;  // in order of sequence
    std::vector<Detour> detours;
    std::vector<Contradiction> contradictions;
    std::vector<WeakEvidence> weak;       // that counts at the end, in order
    std::vector<ReviewedRepair> repairs;  // that count, in order
    FaultProof fault = FaultProof::None;
    Proof proof = Proof::None;  // of the last repair
    OpenEnds open;
    std::vector<std::string> to_do;  // what is left to do, in order, without full stops; empty: nothing
    ReviewedMinutes minutes;
    LogState log;
    std::vector<std::string> notices;  // records that cannot be followed, advice that cannot be read
    std::vector<std::string> assumed;  // which figures behind the chances are assumptions
};

// Closed, and nothing left to do.
inline bool whole(const Review& review) {
    return review.open.closed && review.to_do.empty();
}

}  // namespace halfsplit::advice
