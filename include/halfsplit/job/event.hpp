// What can happen in a job. Each event is a plain struct of names and figures as they stand in the harness
// file; an event knows nothing of disks, and reading one back never plans anything. Texts are UTF-8.
#pragma once

#include "halfsplit/base/clock.hpp"
#include "halfsplit/electrics/distance.hpp"
#include "halfsplit/harness/difference.hpp"
#include "halfsplit/harness/meter_profile.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace halfsplit::job {

using Sequence = std::uint64_t;

// First record of every job: the harness file's own text goes in, so that the job can be replayed without the
// file.
struct Opened {
    std::string harness_file, harness_text, harness_sha256, network, program_version;
    bool operator==(const Opened&) const = default;
};

struct Intake {
    std::string complaint, recent_work;
    std::vector<std::string> conditions;  // "wet", "hot", "cold", "bumps", "comes and goes", or free words
    std::vector<std::string> replaced;    // parts replaced before this visit, by id or in words
    bool operator==(const Intake&) const = default;
};

struct SafeState {
    bool ignition_off = false, bus_asleep = false, battery_off = false;
    double waited_minutes = 0;
    bool operator==(const SafeState&) const = default;
};

struct Answers {
    std::vector<std::string> answering, silent;  // module ids
    bool operator==(const Answers&) const = default;
};

enum class Quantity : std::uint8_t { Ohm, Volt };
enum class Outcome : std::uint8_t { Value, Closed, Open, NotSure, CouldNotReach };

struct Reading {
    std::string red, black;  // terminal names, or "ground", "supply"
    Quantity quantity = Quantity::Ohm;
    Outcome outcome = Outcome::Value;
    double value = 0;    // ohm or volt; infinity is OL; 0 unless Outcome::Value
    bool moved = false;  // taken while the loom was moved
    bool wet = false;    // taken while the place was wetted
    bool operator==(const Reading&) const = default;
};

// A distance to a fault, measured from both ends of a stretch of the pair, and what was worked out from it
// when it was entered: where the fault lies, counted from the first end.
struct Distance {
    electrics::DistanceMethod method = electrics::DistanceMethod::Capacitance;
    electrics::DistanceLines lines = electrics::DistanceLines::High;
    std::string from, to;              // points
    double first = 0, second = 0;      // farad or ohm at either end; of a loop, the arms P and Q
    double metres = 0, deviation = 0;  // and its standard deviation
    std::string run;                   // that it falls in
    double metres_into_run = 0;        // from the run's end at `run_end`, a terminal
    std::string run_end;
    std::vector<std::string> also;  // other parts within one standard deviation
    bool operator==(const Distance&) const = default;
};

enum class Verdict : std::uint8_t { Faulty, Sound, NotSure, CouldNotReach };
// Whether a look said anything about the part.
constexpr bool tells(Verdict verdict) {
    return verdict == Verdict::Faulty || verdict == Verdict::Sound;
}
struct Seen {
    std::string part;
    Verdict verdict = Verdict::NotSure;
    std::string what;  // in the technician's words
    bool operator==(const Seen&) const = default;
};

struct CoverChange {
    std::string cover;
    bool off = true;
    bool implied = false;  // follows from another event; said so, and correctable
    bool operator==(const CoverChange&) const = default;
};

struct PlugChange {
    std::string part;
    bool plugged = false;
    bool implied = false;
    bool operator==(const PlugChange&) const = default;
};

struct ClipMoved {
    std::string point;
    bool operator==(const ClipMoved&) const = default;
};

// The vehicle is not as the harness file says. The job's harness stays as it was; this is kept beside it.
struct VehicleDiffers {
    harness::Difference difference;
    bool operator==(const VehicleDiffers&) const = default;
};

enum class RepairAction : std::uint8_t { Reseated, Cleaned, Repaired, Replaced, BridgePlugFitted };
struct Repair {
    std::string part;
    RepairAction action = RepairAction::Repaired;
    std::string what;
    bool operator==(const Repair&) const = default;
};

// What the proof of a repair showed; an empty field was not tried.
struct Verified {
    std::optional<double> h_to_l_ohm;
    std::optional<bool> all_answer, codes_clear, complaint_gone;
    bool operator==(const Verified&) const = default;
};

// Which meter the readings are taken with, from now on and before.
struct MeterUsed {
    harness::MeterProfile meter;
    bool operator==(const MeterUsed&) const = default;
};

// Pins known to be good were probed to see how often this hand and these tips slip.
struct PinsTried {
    std::uint64_t tried = 0, slips = 0;
    bool operator==(const PinsTried&) const = default;
};

struct Remark {
    std::string text;
    bool operator==(const Remark&) const = default;
};

struct Paused {
    bool operator==(const Paused&) const = default;
};
struct Resumed {
    bool operator==(const Resumed&) const = default;
};
struct Closed {
    bool operator==(const Closed&) const = default;
};

// The advice given, whole, as JSON text (schema "next"): a replay reads it and never plans again.
struct Recommended {
    std::string json;
    bool operator==(const Recommended&) const = default;
};

struct Event;
// Takes the place of an earlier record's event, which stays in the log. An amended record keeps its time and
// its place in the order, and its entered minutes unless the new event brings its own. An amend of an amend
// means the record that one amended; the newest counts.
struct Amend {
    Sequence target = 0;
    std::shared_ptr<const Event> event;         // never null in a record
    bool operator==(const Amend& other) const;  // by content
};
struct Undo {
    Sequence target = 0;
    bool operator==(const Undo&) const = default;
};

using Body = std::variant<Opened, Intake, SafeState, Answers, Reading, Distance, Seen, CoverChange,
                          PlugChange, ClipMoved, Repair, Verified, Remark, Paused, Resumed, Closed, MeterUsed,
                          PinsTried, VehicleDiffers, Recommended, Amend, Undo>;

struct Event {
    Body body;
    std::optional<double> minutes;  // entered by hand in place of the clock's; finite, not negative
    bool operator==(const Event&) const = default;
};

// The kind as it stands in the log: "opened", "intake", "safe-state", "answers", "reading", "distance",
// "seen", "cover", "plug", "clip", "repair", "verified", "remark", "paused", "resumed", "closed", "meter",
// "pins", "differs", "recommended", "amend", "undo".
std::string_view kind(const Event& event);

// Written down because another event implied it (a cover that had to be off for a reading).
bool is_implied(const Event& event);

// May an amend put this event in another's place, and another in its own? Not the opening, an advice, an
// undo, or (as the content of an amend) an amend.
bool may_be_amended(const Event& event);

struct Record {
    Sequence sequence = 0;  // from 1, without gaps
    UnixSeconds time = 0;
    Event event;
    bool operator==(const Record&) const = default;
};

}  // namespace halfsplit::job
