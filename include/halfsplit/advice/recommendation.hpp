// What to do next and why, as data: nothing here is a sentence that a program would have to read back. Names
// are those of the harness file. It is logged whole, so that a replay never plans again.
#pragma once

#include "halfsplit/advice/aim.hpp"
#include "halfsplit/advice/quote.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::advice {

enum class Action : std::uint8_t {
    Intake,         // ask for the complaint and what goes with it
    Scan,           // which modules answer: before all else, or as a step of the hunt (with outcomes)
    SafeState,      // ignition, battery, waiting time: before any ohms
    Read,           // one reading
    Look,           // lay a part bare and look
    Repair,         // a part was seen to be faulty
    Verify,         // prove the repair
    Isolated,       // as far as readings can, and no more was wanted
    LookElsewhere,  // nothing is wrong on this bus, as far as readings can tell
    Refit,          // covers on, connectors together
    Close,          // nothing left but to close the job
    Closed,
};
std::string_view word(Action action);  // "intake", "scan", "safe-state", "read", "look", ...

// Another wire in the same connector half.
struct OtherWire {
    std::string cavity, colour, circuit;
    bool look_alike = false;
};

// Where a lead goes, or what is laid bare.
struct Spot {
    std::string name;  // terminal ("X3.a:4"), part ("X3"), or "ground", "supply"
    std::string part, part_name, kind;
    std::string half, half_name, cavity;  // empty where there are none
    std::string line;                     // "H", "L" or empty
    std::string colour;                   // in words
    std::string place, place_name;
    bool clip = false;  // this is where the clip sits
    std::vector<OtherWire> others;
};

struct CoverStep {
    std::string cover, name;
    double off_minutes = 0, on_minutes = 0;
    std::vector<std::string> cautions;
};

// What has to be arranged before a reading: a part unplugged or plugged in again, the clip moved, the battery
// connected for volts.
struct Preparation {
    std::string step;       // "unplug", "plug", "clip", "wake", "sleep", "power-off"
    Spot spot;              // the part, or the terminal of line H that the clip goes to; else empty
    std::string point;      // clip: the point
    std::string travel_to;  // as in Recommendation
    double travel_minutes = 0;
    std::vector<CoverStep> covers;
    double minutes = 0;  // of the step itself; of unplugging, plugging in again included; of connecting the
                         // battery, taking it off and waiting again included
};

struct PartChance {
    std::string part, name;
    double probability = 0;
};

struct Forecast {
    std::string
        shows;  // "about 0.3 ohm", "about 240 ohm", "open (OL)"; of a look: "it is the fault", "it is not"
    double low_ohm = 0, high_ohm = 0;      // infinity: OL; both 0 for a look, and for volts
    double low_volt = 0, high_volt = 0;    // of a reading in volts, while no module talks
    std::vector<std::string> answering{};  // of a scan: ids of the modules that answer
    double chance = 0;
    double minutes_left = 0;          // expected, after this outcome
    std::size_t suspects_left = 0;    // parts with a chance of 1 % or more
    std::vector<PartChance> leading;  // up to three
};

struct Alternative {
    Action action = Action::Read;
    std::string red, black, part;
    std::string quantity = "ohm";  // or "volt"
    std::string prepare;  // "unplug T1", "battery off, clip to X4.b:1/2", "battery on, bus awake", or empty
    double expected_minutes = 0;
    double more_minutes = 0;        // expected, than the recommendation; below 0 where its aim is another one
    double more_worst_minutes = 0;  // in the worst case
};
std::string in_words(const Alternative& other);  // "look at X3", "unplug T1, then X1.b:4 to DS:6, volts"

// The chance of a part at which another step would be the better one.
struct TurningPoint {
    std::string part, name;
    double now = 0, at = 0;  // chance
    std::string instead;     // that step, in words
};

struct SuspectView {
    std::string part, name, fault, in_words;  // fault: PART:MODE
    double probability = 0;
};

// A reading that the likeliest explanation does not carry.
struct Doubt {
    std::uint64_t sequence = 0;
    std::string red, black, shown, expected;
    double chance_of_slip = 0;
    std::vector<std::string> slips;  // likeliest first, in words
    std::string probably_on;  // terminal of the look-alike that the reading was taken at instead, or empty
    double chance_of_that = 0;
    double recheck_minutes = 0;
};

// What a measured distance says, since the last repair.
struct LocatedView {
    std::uint64_t sequence = 0;
    std::string from, to;              // points
    double metres = 0, deviation = 0;  // from the first of them; one standard deviation
    std::string run, run_end;          // what it falls in, and the end of it that comes first
    double metres_into_run = 0;        // from that end
    std::vector<std::string> also;     // other parts within the deviation
    bool counts = true;                // false: by what the log says now, something was connected there
    std::string in_words;              // a sentence without its stop
};

struct Recommendation {
    Action action = Action::Intake;
    Spot red, black;                   // Read
    std::string quantity = "ohm";      // Read: or "volt"
    std::string bus;                   // Read in volts, Scan in a hunt: "awake" or "asleep"
    Spot target;                       // Look, Repair
    bool recheck = false;              // Read: the same reading was taken before
    std::vector<Preparation> prepare;  // Read, Scan, Verify: to do first, in order
    bool move_loom = false;            // Read: with the loom moved by hand meanwhile
    std::string travel_to;             // place to walk to, empty when already there
    double travel_minutes = 0;
    std::vector<CoverStep> covers;      // to take off on the way, in order
    std::vector<std::string> cautions;  // of place and covers, whole sentences
    double minutes_now = 0;             // of this step
    Quote quote;                        // of this step and all after it
    Aim aim;                            // that the plan is best at, and that `proven` is about
    std::vector<Forecast> outcomes;
    std::vector<Alternative> alternatives;     // the next two
    std::vector<TurningPoint> turning_points;  // to the first of them, nearest first
    std::vector<SuspectView> suspects;         // faults with a chance of 0.5 % or more, likeliest first
    std::vector<PartChance> parts;             // the same by part; a part seen as sound is not in it
    std::vector<std::string> cleared;          // parts that the readings have taken out of suspicion
    double nothing_wrong = 0;
    bool two_faults = false;
    double comes_and_goes = 0;        // chance that something is wrong and does not always show
    std::vector<PartChance> quieted;  // contacts that are the fault, and quiet since they were reseated
    std::vector<Doubt> doubts;
    std::vector<LocatedView> located;
    std::string cannot_tell;  // what the last reading could not tell, a sentence, or empty
    std::vector<std::string> covers_to_refit, parts_to_reconnect;  // ids; always kept up to date
    std::vector<std::string> assumed;  // which figures behind this are assumptions, in words
};

// Whether the step was chosen by a plan: a reading, a look, or a scan in the course of the hunt.
bool is_hunting(const Recommendation& advice);

}  // namespace halfsplit::advice
