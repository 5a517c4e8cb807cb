// What the passes over a harness file share, and the passes themselves in the order in which they run.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include "base/collector.hpp"
#include "base/member.hpp"
#include "harness/names.hpp"
#include "harness/terminals.hpp"

#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

namespace halfsplit::harness {

struct Reading {
    Harness harness;
    Collector findings;
    NameBook networks{"network"}, options{"option"}, places{"place"}, covers{"cover"}, parts{"part"};
    Terminals terminals;
    std::vector<Member> part_members;  // by part
    std::unordered_map<Index, std::unordered_set<std::string>>
        faces;  // cavities of the connectors that show theirs
    std::vector<Index>
        mates;  // by terminal: the same cavity of the other half, or none; from check_connectors
    std::unordered_set<Index>
        vague;  // parts whose own pins are not clear, so that wires to them cannot be judged
    // Whether every wire end and pin found its terminal. Where not, what hangs together cannot be judged.
    bool wiring_sound = true;
};

// Networks, options, places, travel, covers.
void read_surroundings(const Member& file, Reading& reading);
void read_assumptions(const Member& file, Reading& reading);

// Every part with its id and what all kinds have in common; after it, parts can be referred to.
void read_parts(const Member& file, Reading& reading);
// Pins and ports of modules, socket, splices and terminators; faces and other circuits of connectors.
void read_attachments(Reading& reading);
// After the attachments, because a plug may sit at one of them.
void read_plugs(Reading& reading);
void read_runs(Reading& reading);

// Points from terminals, and where each network's clip starts.
void make_points(Reading& reading, const Member& file);

// What is sound by itself and yet makes no sense together.
void check_covers(Reading& reading);
void check_connectors(Reading& reading);
void check_colours(Reading& reading);  // after the connectors
void check_wholeness(Reading& reading);
void check_bus_rules(Reading& reading);
// Of a network: the parts that hold a terminator and are or may be there, and whether it has a ring.
void check_terminators(Index network, const std::vector<Index>& holders, bool ring, Reading& reading);

// What several passes need. Each returns none, with a finding where the schema has none, for what is not to
// be had.
Access read_access(const Member& member, Reading& reading);
Index read_network(const Member& member, Reading& reading);
Colour read_colour(const Member& strand, const char* base, const char* stripe, Reading& reading);
// The terminal of a cavity that a part names as its own.
Index declare(const Member& cavity, Index part, char half, Reading& reading);
// Whether there is a cavity for each line that the network has, and for no other.
void say_second_line(const Member& line, Index network, Reading& reading);
void check_lines(const Member& lines, Index network, Reading& reading);
Port declare_port(const Member& pins, Index part, Index network, Reading& reading);
// The terminal of a connector's cavity, which a face may know or not.
Index connector_terminal(const Member& where, Index part, char half, const std::string& cavity,
                         Reading& reading);
// Gives the terminal to a line of a network, or finds that it belongs to another.
bool assign_line(const Member& where, Index terminal, Index network, Line line, Reading& reading);
void say_used_twice(const Member& where, Index terminal, const std::string& first, Reading& reading);
std::string line_in_words(const Harness& harness, Index network, Line line);

}  // namespace halfsplit::harness
