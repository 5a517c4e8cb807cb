#include "harness/bus_rules.hpp"

#include <array>

namespace halfsplit::harness {

namespace {

struct Rate {
    double bit_rate = 0, stub_m = 0;
};

// Longest single stub by bit rate: MOTORTECH MIC5 manual, p. 50; the same as CiA 303-1 (from memory). At 1
// Mbit/s ISO 11898-2 itself is stricter: 0.3 m (quoted in the Texas Instruments data sheets SLLSEC4B and
// SLLS804D).
constexpr std::array<Rate, 6> stubs{
    {{1'000'000, 0.3}, {800'000, 2.5}, {500'000, 5.5}, {250'000, 11}, {125'000, 22}, {50'000, 55}}};

// The limit of the next faster rate in the table, so that a rate between two is judged by the stricter one.
Limit stub_by_rate(double bit_rate) {
    if (bit_rate > stubs[1].bit_rate) return {stubs[0].stub_m, "ISO 11898-2 at 1 Mbit/s"};
    double most = stubs.front().stub_m;
    for (const Rate& rate : stubs) {
        if (rate.bit_rate >= bit_rate) most = rate.stub_m;
    }
    return {most, "CiA 303-1, by bit rate"};
}

}  // namespace

Limit longest_stub(const Network& network) {
    if (network.longest_stub_m > 0) return {network.longest_stub_m, "as the file states"};
    if (network.kind == "iso11898-2") return stub_by_rate(network.bit_rate);
    if (network.kind == "j1939-11") return {1, "SAE J1939-11"};  // J1939-11:2016, a published summary
    if (network.kind == "j1939-15") return {3, "SAE J1939-15"};  // from memory
    return {};
}

Limit longest_bus(const Network& network) {
    if (network.kind == "j1939-11") return {40, "SAE J1939-11"};  // J1939-11:2016, a published summary
    if (network.kind == "iso11898-2" && network.bit_rate >= 1'000'000) {
        return {40, "ISO 11898-2 at 1 Mbit/s"};  // Texas Instruments data sheets SLLSEC4B and SLLS804D
    }
    return {};
}

Limit most_nodes(const Network& network) {
    if (network.kind == "j1939-11") return {30, "SAE J1939-11"};  // J1939-11:1999, clause 3.1
    return {};
}

bool wants_terminators(const Network& network) {
    return network.kind == "iso11898-2" || network.kind == "j1939-11" || network.kind == "j1939-15";
}

}  // namespace halfsplit::harness
