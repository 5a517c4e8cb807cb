// A bus as long as wanted, of the same pieces over and over: what is measured in benchmarks, where a random
// one would not compare.
#pragma once

#include <cstddef>
#include <string>

namespace halfsplit::test {

// A socket, a terminator at both ends, and between them as many sections as fit into `points` (at least 10).
// Twelve places in a row with a cover each. The network "main".
enum class Sections {
    Modules,     // a connector, a loop module, and a splice with a module on a stub: six points
    Connectors,  // a connector alone: two points; one module at either end
};

std::string large_bus_json(std::size_t points, Sections sections = Sections::Modules);

}  // namespace halfsplit::test
