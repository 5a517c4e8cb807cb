#include "support/circuit_simulator.hpp"

#include "support/temporary_folder.hpp"

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace halfsplit::test {

namespace {

// Lines "ohm_1 = 1.2e+02"; all others are talk.
std::map<std::string, double> figures(const std::string& output) {
    std::map<std::string, double> result;
    std::istringstream lines(output);
    std::string line;
    while (std::getline(lines, line)) {
        std::istringstream words(line);
        std::string name;
        std::string equals;
        std::string figure;
        if (words >> name >> equals >> figure && equals == "=") result[name] = std::stod(figure);
    }
    return result;
}

}  // namespace

std::map<std::string, double> simulate(const std::string& netlist) {
    const TemporaryFolder folder;
    std::ofstream(folder / "circuit.cir") << netlist;
    const std::string command =
        "ngspice -n -b '" + folder / "circuit.cir" + "' > '" + folder / "output.txt" + "' 2>&1";
    const int status = std::system(command.c_str());
    std::ostringstream output;
    output << std::ifstream(folder / "output.txt").rdbuf();
    if (status != 0) {
        throw std::runtime_error("ngspice did not run (the Debian package `ngspice` has it):\n" +
                                 output.str());
    }
    if (output.str().find("singular") != std::string::npos) {
        throw std::runtime_error("ngspice found a circuit without one solution:\n" + output.str());
    }
    return figures(output.str());
}

}  // namespace halfsplit::test
