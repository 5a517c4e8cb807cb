// One network of a harness as a circuit, with each edge and node labelled by what it is in the vehicle.
//
// Each terminal is a node. A run is one wire edge per line. A mated contact joins a half's terminal to the
// other half's, or to the inside of a module, bridge plug or terminator. A module of loop kind passes each
// line through inside; a terminator joins H and L; a transceiver joins H to L and each line to ground with
// kilohms. Ground and supply are nodes; the vehicle's other loads join them.
//
// Battery off, nothing is held at a voltage: a circuit for ohms. Battery on, ground, supply and the bias of
// the transceivers are held, and each transceiver's resistance from a line ends at the bias instead of at
// ground: 2.5 V while the bus is awake and recessive, 0 V while it sleeps. A module that is apart biases
// nothing but its own inside.
#pragma once

#include "halfsplit/electrics/circuit.hpp"
#include "halfsplit/harness/harness.hpp"

#include <cstdint>
#include <vector>

namespace halfsplit::electrics {

enum class EdgeKind : std::uint8_t {
    Wire,          // a run's line
    Contact,       // connector half to half, or terminal to the inside of a part
    Crimp,         // a run's end to its splice
    Through,       // inside a loop module, or a bridge plug
    Terminator,    // H to L
    NoTerminator,  // H to L where a terminator could be by mistake: not there in a sound bus
    Transceiver,   // H to L, or a line to ground
    Load,          // supply to ground
    ShortLines,    // H to L: not there in a sound bus
    ShortGround,   // line to ground: not there
    ShortSupply,   // line to supply: not there
};

// How the vehicle stands while a meter is on it.
enum class Power : std::uint8_t {
    Off,     // battery off
    Asleep,  // battery on, transceivers without bias
    Awake,   // battery on, bus recessive
};

struct EdgeRole {
    EdgeKind kind = EdgeKind::Wire;
    harness::Index part = harness::none;
    harness::Line line = harness::Line::High;
    harness::Index terminal = harness::none;  // contact, crimp: which
    harness::Index run = harness::none;       // crimp: whose end
};

// Figures of the electrical model. Ohm; volt where the name says so.
struct Figures {
    double contact = 0.01;  // mated contact (MIL-DTL-26482 size 20: at most 0.03)
    double crimp = 0.002;
    double through = 0.02;           // inside a module or plug; common practice, no source
    double line_to_line = 40'000;    // transceiver H to L, unpowered (ISO 11898-2: 10 to 100 kohm)
    double line_to_ground = 25'000;  // transceiver line to ground, unpowered (ISO 11898-2: 5 to 50 kohm)
    double loads = 150;              // supply to ground with the battery off; common practice, no source
    double awake_volt = 2.5;         // bias, bus recessive (ISO 11898-2: 2.0 to 3.0 V)
    double asleep_volt = 0;          // no bias (ISO 11898-2: -0.1 to 0.1 V)
    double supply_volt = 12.6;       // battery at rest; common practice, no source
};

// What of the harness is apart when a reading is taken: connectors unmated, modules, plugs and terminators
// unplugged.
using Apart = std::vector<harness::Index>;  // parts, sorted

struct Assembly {
    Circuit circuit;
    std::vector<EdgeRole> roles;                          // by edge
    std::vector<std::vector<std::size_t>> edges_of_part;  // by part
    std::vector<Node>
        node_of_terminal;  // by terminal; harness::none where it is not in this network or on this vehicle
    Node ground = 0, supply = 0;
    Node bias = harness::none;  // of the transceivers; none with the battery off
    std::vector<Held> held;     // ground, supply, bias; empty with the battery off
    // Inside the diagnostic socket, for who answers; on a single line where it is fed, for what works: the
    // socket, or where the clip starts.
    Node socket_high = harness::none, socket_low = harness::none;
    bool single_line = false;
    struct ModuleEnd {
        harness::Index part = harness::none;
        Node high = harness::none, low = harness::none;  // inside the module
    };
    std::vector<ModuleEnd> modules;
};

// All the networks of a file are separate circuits: `network` names the one wanted. `present` is by part (a
// variant's). Everything is mated and plugged in. Edges are numbered alike whatever the power, so that a list
// of changes fits all three. Linear in the parts.
Assembly assemble(const harness::Harness& harness, harness::Index network, const std::vector<char>& present,
                  Power power = Power::Off, const Figures& figures = {});

// What taking parts apart does: the contacts of connectors, modules, plugs and terminators open. A part that
// cannot come apart (splice, socket, run) or is not on the vehicle changes nothing.
std::vector<Change> taken_apart(const Assembly& assembly, const harness::Harness& harness,
                                const Apart& apart);

}  // namespace halfsplit::electrics
