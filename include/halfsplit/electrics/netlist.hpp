// Circuits as text for a general circuit simulator (SPICE; ngspice 39 runs it with `-b`), so that what the
// solver says can be checked by another program.
//
// Each question is a circuit of its own in the text; they share nothing but the simulator's node 0. Every
// figure is printed on a line of its own, as `NAME = 1.234567890123e+00`, under the name that was returned
// when it was asked for: `ohm_1`, `volt_2_1`, ...
#pragma once

#include "halfsplit/electrics/circuit.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::electrics {

// What nodes and edges are called in a netlist, beside their number: any text, made fit by small letters,
// digits and underscores. Either may be empty or too short.
struct Labels {
    std::vector<std::string> nodes, edges;
};

// A part that nothing holds would have no one solution. One node of it is tied through this: for ohms to
// node 0, for volts to a node far above anything on a vehicle, so that its figure tells. It is no larger
// because the simulator computes in double precision: beside a contact of milliohms a tie of 1e15 ohm would
// vanish.
inline constexpr double tie_ohm = 1e9;
inline constexpr double tie_volt = 1e6;
// From here on a figure in ohm means OL, and one in volt a floating node. No sound question comes near: up
// to here the resistances of a circuit must add up to less.
inline constexpr double simulated_open_ohm = 1e8;
inline constexpr double simulated_floating_volt = 1e5;

class Netlist {
  public:
    // `title`: the first line, for people.
    explicit Netlist(std::string_view title);

    // The ohms between the tips after the changes, by one ampere in at red and out at black. Returns the
    // figure's name. As Solver::resistance would say.
    std::string add_ohms(const Circuit& circuit, const std::vector<Change>& changes, Tips tips,
                         const Labels& labels = {});
    // The volts of some nodes after the changes. Returns the figures' names, by node asked for. As
    // OperatingPoint::volts would say.
    std::vector<std::string> add_volts(const Circuit& circuit, const std::vector<Change>& changes,
                                       const std::vector<Held>& held, const std::vector<Node>& nodes,
                                       const Labels& labels = {});

    // The whole text: elements, options, and the commands that solve and print. Linear in what was added.
    std::string text() const;

  private:
    struct Namer;
    void add_resistors(const Circuit& circuit, const Namer& name);
    // Ties each part that holds none of `held`.
    void add_ties(const Circuit& circuit, const std::vector<Node>& held, const char* to, const Namer& name);
    void add_figure(const std::string& figure, const std::string& node);

    std::string elements_, commands_;
    std::size_t questions_ = 0;
};

}  // namespace halfsplit::electrics
