// One vehicle's harness as the file states it: parts, the pairs of lines through them, and what each place
// costs to reach. Every reference is already an index; see read.hpp for how a file becomes this.
//
//   networks     one bus each: two lines H and L; or a single line, which is called H
//   parts        everything that can fail or be laid bare: modules, connectors, splices, terminators, bridge
//   plugs,
//                the diagnostic socket and the runs (wire pairs) between them
//   terminals    one metal contact each, named PART:CAVITY or PART.HALF:CAVITY ("X3.a:4", "M2:1", "S1:H")
//   points       a pair of terminals (H and L of one network) where a probe can be set, named "X3.a:4/5"; on
//   a
//                single line one terminal, named as such
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::harness {

using Index = std::size_t;
inline constexpr Index none = static_cast<Index>(-1);

enum class Line : std::uint8_t { High = 0, Low = 1 };
inline constexpr std::array<Line, 2> both_lines{Line::High, Line::Low};
inline constexpr Line other(Line line) {
    return line == Line::High ? Line::Low : Line::High;
}

// IEC 60757 codes in two fields (the standard's own joined form loses which is the base). Empty: not stated.
struct Colour {
    std::string base;
    std::string stripe;
    bool operator==(const Colour&) const = default;
};

// "yellow with a black stripe"; "colour not stated".
std::string in_words(const Colour& colour);

// Three-valued, because a drawing often leaves open what this vehicle has.
enum class Fitted : std::uint8_t { Yes, No, Unknown };

struct Network {
    std::string id, name, kind;
    bool single_line = false;              // a lamp feed, a sensor wire: line H alone
    double bit_rate = 500'000;             // bit/s
    double terminator_ohm = 120;           // nominal, ISO 11898-2
    double longest_stub_m = 0;             // 0: the limit of `kind`
    std::array<std::string, 2> line_name;  // as printed on the drawing, by Line
    std::optional<std::size_t>
        terminators;    // how many the file says it should have; otherwise two, or no rule
    Index clip = none;  // point where the reference clip starts; default: the socket's, or the first there is
};

struct Option {
    std::string id, name;
    Fitted fitted = Fitted::Unknown;
};

struct Place {
    std::string id, name;
    std::vector<std::string> cautions;
};

struct Cover {
    std::string id, name;
    double off_minutes = 0, on_minutes = 0;
    std::vector<Index> under;  // covers that must be off before this one
    std::vector<std::string> cautions;
};

// What it takes to get at something, once one stands at `place` with `covers` (and all that lies over them)
// off.
struct Access {
    Index place = none;
    std::vector<Index> covers;
    double probe_minutes = 1;
    double look_minutes = 3;
};

enum class PartKind : std::uint8_t { Module, Connector, Splice, Terminator, BridgePlug, Socket, Run };
std::string_view word(PartKind kind);  // "module", "connector", "splice", "terminator", "bridge plug", ...

struct Marks {
    bool flexing = false, wet = false, worked_on = false, add_on = false, unverified = false;
};

// A pair of terminals by which one network enters or leaves a part. `none` where a line is not there.
struct Port {
    std::array<Index, 2> terminal{none, none};  // by Line
};

// A module's connection to one network. Loop: the pair goes in at `in` and out at `out`, bridged inside.
struct Attachment {
    Index network = none;
    bool loop = false;
    Port in, out;  // a spur uses `in` alone
    enum class Terminator : std::uint8_t {
        None,
        BuiltIn,
        SwitchedOn,
        SwitchedOff
    } terminator = Terminator::None;
    double terminator_ohm = 120;
    std::optional<double> load_ohm;  // single line: inside the module, to ground, with the battery off
};

// One line of a run: from terminal to terminal, of one colour.
struct Strand {
    Index from = none, to = none;  // terminals
    Colour colour;
};

// A cavity that carries some other circuit, listed because its wire could be taken for ours. At the socket
// also the cavities of ground and supply, with `circuit` "ground" and "supply".
struct OtherWire {
    Index terminal = none;
    std::string circuit;
    Colour colour;
};

struct Face {
    std::size_t rows = 0, columns = 0;
    std::vector<std::string>
        cavities;  // row by row from the top left, seen from the mating side of half a; "" = no cavity
};

struct Part {
    PartKind kind = PartKind::Run;
    std::string id, name, note;
    Access access;
    Marks marks;
    Fitted fitted = Fitted::Yes;
    Index option = none;           // option that `fitted` follows from, if one
    bool without_option = false;   // fitted when that option is not
    std::optional<double> weight;  // replaces the assumed weight of the whole part
    std::string pointer;           // JSON pointer of the part in its file

    std::vector<Attachment> attachments;   // module; socket (one spur for each network it shows)
    std::array<std::string, 2> half_name;  // connector: what half a and half b are
    std::array<std::optional<Access>, 2>
        half_access;                     // connector: where a half is reached otherwise than the part
    Face face;                           // connector
    std::vector<OtherWire> other_wires;  // connector, socket
    Index network = none;                // splice, terminator, plug, run
    double ohm = 0;                      // terminator
    Port in, out;                        // terminator and splice (`in`), plug (both)
    Index stands_in_for_part = none;     // plug
    Index stands_in_for_option = none;   // plug
    std::array<std::optional<Strand>, 2> strand;  // run, by Line
    double length_m = 0;                          // run
    double section_mm2 = 0.5;                     // run
    bool twisted = true;                          // run
};

struct Terminal {
    Index part = none;     // a bridge plug that sits at another part has none of its own: it uses that part's
    char half = 0;         // 'a', 'b', or 0 where the part has no halves
    std::string cavity;    // as printed on the part; "H" or "L" at a splice
    Index network = none;  // none where another circuit uses it
    Line line = Line::High;
};

struct Point {
    Index network = none;
    Index part = none;
    std::array<Index, 2> terminal{none, none};  // by Line
};

struct Travel {
    double default_minutes = 2;
    std::vector<double> minutes;  // places x places, row-major, symmetric, 0 on the diagonal
};

// Figures that are judgement, not measurement: printed as "assumed" unless the file sets them.
struct Assumptions {
    double connector_weight = 3, plug_weight = 3, splice_weight = 2, terminator_weight = 1, module_weight = 1;
    double wire_weight_per_m = 0.2;
    double flexing_factor = 5, wet_factor = 3, worked_on_factor = 5, add_on_factor = 3, unverified_factor = 2;
    double open_share = 6, joint_share = 3, short_share = 1;
    double nothing_wrong = 0.05;  // chance that this bus is sound
    double second_fault = 0.05;   // chance of a further independent fault, given one
    double contact_slip = 0.03;   // chance that a probe made no contact and the meter shows OL
    double wrong_wire = 0.01;     // chance of being on a look-alike, where there is one
    // The meter: accuracy as percent of the figure and digits of the last place shown, of so many counts on
    // each range; what its leads add; where it shows OL; below which ohms its buzzer always sounds and above
    // which never.
    double meter_percent = 1, meter_digits = 3, meter_counts = 4000, meter_lead_ohm = 0.2,
           meter_limit_ohm = 40e6;
    double buzzer_low_ohm = 20, buzzer_high_ohm = 120;
    // Chance that a fault comes and goes, where the complaint does not say so and where it does; and that
    // such a fault shows nothing while the loom is at rest, and while it is moved or wetted.
    double intermittent = 0.005, intermittent_told = 0.8, quiet_at_rest = 0.5, quiet_when_provoked = 0.1;
    // Chance that taking a bad contact apart and together cures it, for a while at least.
    double reseat_cures = 0.3;
    // Chance that a module stays silent: both lines open on the way, one line open, a short anywhere on the
    // bus (all of them together), a terminator out of reach, nothing in the way.
    double silent_both_open = 0.98, silent_one_open = 0.7, silent_short = 0.95, silent_terminator = 0.1,
           silent_sound = 0.03;
    double repair_fails = 0.1;  // chance that a repair did not take
    double clip_minutes = 1, unmate_minutes = 1, remate_minutes = 1;
    double loom_minutes = 1;  // to move the loom while reading, on top of the reading
    // Battery on, ignition on, bus awake; the way back to ohms, the maker's waiting time included; an awake
    // bus left alone until it sleeps.
    double power_on_minutes = 2, power_off_minutes = 12, sleep_minutes = 5;
    std::vector<std::string> stated;  // names of the members that the file set itself
    bool operator==(const Assumptions&) const = default;
};

// Where places and covers came from that the file did not state itself.
struct Library {
    std::string file, title, source;
};

struct Harness {
    std::string title, note, vehicle;
    std::vector<Library> libraries;
    std::vector<Network> networks;
    std::vector<Option> options;
    std::vector<Place> places;
    std::vector<Cover> covers;
    std::vector<Part> parts;
    std::vector<Terminal> terminals;
    std::vector<Point> points;
    Travel travel;
    Index start = 0;  // place where the technician begins
    Assumptions assumptions;
};

// The lines of a network: H and L, or H alone.
const std::vector<Line>& lines_of(const Network& network);
// The same where the network may not be known: H and L.
const std::vector<Line>& lines_of(const Harness& harness, Index network);

// The terminals of a point, by line; one on a single line.
std::vector<Index> terminals_of(const Point& point);

std::string terminal_name(const Harness& harness, Index terminal);  // "X3.a:4"
std::string point_name(const Harness& harness, Index point);  // "X3.a:4/5", or "X3.a:4" on a single line
std::vector<std::string> ids_of(const Harness& harness, const std::vector<Index>& parts);

// Linear searches by name; `none` when unknown.
Index find_part(const Harness& harness, std::string_view id);
Index find_terminal(const Harness& harness, std::string_view name);
Index find_point(const Harness& harness, std::string_view name);
Index find_network(const Harness& harness, std::string_view id);
Index find_cover(const Harness& harness, std::string_view id);
Index find_place(const Harness& harness, std::string_view id);

// Where a terminal is reached: its half's own access, or its part's.
const Access& access_of(const Harness& harness, Index terminal);

// The run that ends at a terminal and which of its lines does; {none, High} where no wire of the model ends.
struct WireEnd {
    Index run = none;
    Line line = Line::High;
};
WireEnd wire_at(const Harness& harness, Index terminal);

}  // namespace halfsplit::harness
