// What can happen in a job. Each event is a plain struct of names and figures as they stand in the harness file; an
// event knows nothing of disks, and reading one back never plans anything.
#pragma once

#include "halfsplit/base/clock.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace halfsplit::job {

using Sequence = std::uint64_t;

// First record of every job: the harness file's own text goes in, so that the job can be replayed without the file.
struct Opened {
    std::string harness_file, harness_text, harness_sha256, network, program_version;
};

struct Intake {
    std::string complaint, recent_work;
    std::vector<std::string> conditions;  // "wet", "hot", "cold", "bumps", "comes and goes", or free words
    std::vector<std::string> replaced;    // parts replaced before this visit, by id or in words
};

struct SafeState {
    bool ignition_off = false, bus_asleep = false, battery_off = false;
    double waited_minutes = 0;
};

struct Answers {
    std::vector<std::string> answering, silent;  // module ids
};

enum class Quantity : std::uint8_t { Ohm, Volt };
enum class Outcome : std::uint8_t { Value, Closed, Open, NotSure, CouldNotReach };

struct Reading {
    std::string red, black;  // terminal names, or "ground", "supply"
    Quantity quantity = Quantity::Ohm;
    Outcome outcome = Outcome::Value;
    double value = 0;        // ohm or volt; infinity is OL; meaningful for Outcome::Value
    bool moved = false;      // taken while the loom was moved
};

enum class Verdict : std::uint8_t { Faulty, Sound, NotSure };
struct Seen {
    std::string part;
    Verdict verdict = Verdict::NotSure;
    std::string what;  // in the technician's words
};

struct CoverChange {
    std::string cover;
    bool off = true;
    bool implied = false;  // follows from another event; said so, and correctable
};

struct PlugChange {
    std::string part;
    bool plugged = false;
    bool implied = false;
};

struct ClipMoved {
    std::string point;
};

enum class RepairAction : std::uint8_t { Reseated, Cleaned, Repaired, Replaced, BridgePlugFitted };
struct Repair {
    std::string part;
    RepairAction action = RepairAction::Repaired;
    std::string what;
};

// What the proof of a repair showed; an empty field was not tried.
struct Verified {
    std::optional<double> h_to_l_ohm;
    std::optional<bool> all_answer, codes_clear, complaint_gone;
};

struct Remark {
    std::string text;
};

struct Paused {};
struct Resumed {};
struct Closed {};

// The advice given, whole, as JSON text (schema "next"): a replay reads it and never plans again.
struct Recommended {
    std::string json;
};

struct Event;
// Takes the place of an earlier record's event, which stays in the log.
struct Amend {
    Sequence target = 0;
    std::shared_ptr<const Event> event;
};
struct Undo {
    Sequence target = 0;
};

using Body = std::variant<Opened, Intake, SafeState, Answers, Reading, Seen, CoverChange, PlugChange, ClipMoved, Repair,
                          Verified, Remark, Paused, Resumed, Closed, Recommended, Amend, Undo>;

struct Event {
    Body body;
    std::optional<double> minutes;  // entered by hand in place of the clock's
};

// The kind as it stands in the log: "opened", "intake", "safe-state", "answers", "reading", "seen", "cover", "plug",
// "clip", "repair", "verified", "remark", "paused", "resumed", "closed", "recommended", "amend", "undo".
std::string_view kind(const Event& event);

struct Record {
    Sequence sequence = 0;  // from 1, without gaps
    UnixSeconds time = 0;
    Event event;
};

}  // namespace halfsplit::job
