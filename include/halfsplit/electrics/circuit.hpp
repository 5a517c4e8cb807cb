// A network of resistances: nodes, edges, nothing about vehicles.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

namespace halfsplit::electrics {

using Node = std::size_t;

inline constexpr double open_circuit =
    std::numeric_limits<double>::infinity();  // ohm: what a meter shows as OL

struct Edge {
    Node from = 0, to = 0;
    double ohm = 0;  // positive; infinity is an edge that is not there (it can be closed by a change)
};

struct Circuit {
    std::size_t nodes = 0;
    std::vector<Edge> edges;
};

// What a fault does: edge `edge` gets `ohm` instead. Infinity opens it; a finite value closes one that was
// not there.
struct Change {
    std::size_t edge = 0;
    double ohm = open_circuit;
};

// Whether an edge of so many ohms is there at all.
bool is_present(double ohm);
// The circuit with the changes made. Linear. Throws std::out_of_range for an edge that is not there.
Circuit changed(const Circuit& circuit, const std::vector<Change>& changes);

// A node held at a voltage against ground, whatever flows: a source without inner resistance.
struct Held {
    Node node = 0;
    double volt = 0;
};

// Where the meter's leads are.
struct Tips {
    Node red = 0, black = 0;
};

}  // namespace halfsplit::electrics
