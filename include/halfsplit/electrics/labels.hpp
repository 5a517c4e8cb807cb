// What the nodes and edges of a harness's circuit are called in a netlist.
#pragma once

#include "halfsplit/electrics/assembly.hpp"
#include "halfsplit/electrics/netlist.hpp"
#include "halfsplit/harness/harness.hpp"

namespace halfsplit::electrics {

// Nodes: "ground", "supply", "bias", terminals by their name, the insides of modules by part and line.
// Edges: kind, part and line ("wire W4 h"). What has no name of its own stays empty. Linear.
Labels labels(const harness::Harness& harness, const Assembly& assembly);

}  // namespace halfsplit::electrics
