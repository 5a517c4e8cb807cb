#include "harness/bus_rules.hpp"

#include <array>

namespace halfsplit::harness {

namespace {

struct Rate {
    double bit_rate = 0, bus_m = 0, stub_m = 0, all_stubs_m = 0;
};

// Length of the wire, of a single stub and of all stubs together, by bit rate: MOTORTECH, manuals of the MIC5
// (p. 50) and of the EasyNOx, "CAN bus wiring"; the same as CiA 303-1 (from memory). At 1 Mbit/s ISO 11898-2
// itself says 40 m and 0.3 m (quoted in the Texas Instruments data sheets SLLSEC4B and SLLS804D).
constexpr std::array<Rate, 6> rates{{{1'000'000, 40, 0.3, 7.5},
                                     {800'000, 50, 2.5, 12.5},
                                     {500'000, 100, 5.5, 27.5},
                                     {250'000, 250, 11, 55},
                                     {125'000, 500, 22, 110},
                                     {50'000, 1000, 55, 275}}};

// The limit of the next faster rate in the table, so that a rate between two is judged by the stricter one.
Limit by_rate(double bit_rate, double Rate::*figure) {
    const bool fastest = bit_rate > rates[1].bit_rate;
    double most = rates.front().*figure;
    for (const Rate& rate : rates) {
        if (rate.bit_rate >= bit_rate) most = rate.*figure;
    }
    const bool standard = fastest && figure != &Rate::all_stubs_m;
    return {most, standard ? "ISO 11898-2 at 1 Mbit/s" : "CiA 303-1, by bit rate"};
}

}  // namespace

Limit longest_stub(const Network& network) {
    if (network.longest_stub_m > 0) return {network.longest_stub_m, "as the file states"};
    if (network.kind == "iso11898-2") return by_rate(network.bit_rate, &Rate::stub_m);
    if (network.kind == "j1939-11") return {1, "SAE J1939-11"};  // J1939-11:2016, a published summary
    if (network.kind == "j1939-15") return {3, "SAE J1939-15"};  // from memory
    return {};
}

Limit longest_bus(const Network& network) {
    if (network.kind == "j1939-11") return {40, "SAE J1939-11"};  // J1939-11:2016, a published summary
    if (network.kind == "iso11898-2") return by_rate(network.bit_rate, &Rate::bus_m);
    return {};
}

Limit all_stubs(const Network& network) {
    // Where the file states a stub of its own, the table is not what its maker went by.
    if (network.kind != "iso11898-2" || network.longest_stub_m > 0) return {};
    return by_rate(network.bit_rate, &Rate::all_stubs_m);
}

Limit most_nodes(const Network& network) {
    if (network.kind == "j1939-11") return {30, "SAE J1939-11"};  // J1939-11:1999, clause 3.1
    return {};
}

bool wants_terminators(const Network& network) {
    return network.kind == "iso11898-2" || network.kind == "j1939-11" || network.kind == "j1939-15";
}

}  // namespace halfsplit::harness
