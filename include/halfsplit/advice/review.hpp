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

// What was suspected at a moment. A suspect is a part with a chance of 1 % or more.
struct Outlook {
    std::size_t suspects = 0;
    std::vector<PartChance> leading;  // up to three, likeliest first
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

// What is proven by the last proof after a repair and before the next one.
enum class Proof : std::uint8_t {
    None,     // not tried
    Partial,  // nothing speaks against it, but the complaint was not tried again
    NotCured,
    Cured,  // complaint gone, nothing known to speak against it
};
std::string_view word(Proof proof);  // "none", "partial", "not-cured", "cured"

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
    bool cause = false;  // cured, or likelier than not to have been at fault
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
};

struct Review {
    std::string vehicle, title, network, network_name, harness_file;
    UnixSeconds opened = 0, last = 0;  // times of the first and the last record
    job::Intake intake;                // newest
    bool has_intake = false;
    std::vector<ReviewStep> steps;  // in order of sequence
    std::vector<Detour> detours;
    std::vector<Contradiction> contradictions;
    std::vector<ReviewedRepair> repairs;  // that count, in order
    Proof proof = Proof::None;            // of the last repair
    OpenEnds open;
    ReviewedMinutes minutes;
    std::vector<std::string> notices;  // records that cannot be followed, advice that cannot be read
    std::vector<std::string> assumed;  // which figures behind the chances are assumptions
};

}  // namespace halfsplit::advice
