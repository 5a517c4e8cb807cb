// A general-purpose circuit simulator, another program, as the oracle of the solver.
#pragma once

#include <map>
#include <string>

namespace halfsplit::test {

// Runs ngspice (Debian package of that name) on a netlist and returns what it printed, by name. Throws
// std::runtime_error when it is not installed, failed, or found the circuit to have no one solution.
std::map<std::string, double> simulate(const std::string& netlist);

}  // namespace halfsplit::test
