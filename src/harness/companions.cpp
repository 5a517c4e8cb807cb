#include "halfsplit/harness/companions.hpp"

namespace halfsplit::harness {

namespace {

std::string circuit_of(const Harness& harness, const WireEnd& wire) {
    const Index network = harness.parts[wire.run].network;
    std::string line = wire.line == Line::High ? " H" : " L";
    if (network != none && harness.networks[network].single_line) line.clear();
    return network == none ? "bus" + line : harness.networks[network].name + line;
}

}  // namespace

Colour colour_at(const Harness& harness, Index terminal) {
    const WireEnd wire = wire_at(harness, terminal);
    if (wire.run == none) return {};
    return harness.parts[wire.run].strand[static_cast<std::size_t>(wire.line)]->colour;
}

std::vector<Companion> companions(const Harness& harness, Index terminal) {
    const Terminal& own = harness.terminals[terminal];
    std::vector<Companion> result;
    const bool shares_a_plug = own.half != 0 || harness.parts[own.part].kind == PartKind::Module;
    if (!shares_a_plug) return result;
    const Colour colour = colour_at(harness, terminal);
    const auto add = [&](Index other, const Colour& other_colour, std::string circuit) {
        const bool alike = !colour.base.empty() && other_colour == colour;
        result.push_back({other, other_colour, std::move(circuit), alike});
    };
    for (Index other = 0; other < harness.terminals.size(); ++other) {
        const Terminal& candidate = harness.terminals[other];
        if (other == terminal || candidate.part != own.part || candidate.half != own.half) continue;
        const WireEnd wire = wire_at(harness, other);
        if (wire.run != none) add(other, colour_at(harness, other), circuit_of(harness, wire));
    }
    for (const OtherWire& wire : harness.parts[own.part].other_wires) {
        if (wire.terminal != terminal && harness.terminals[wire.terminal].half == own.half) {
            add(wire.terminal, wire.colour, wire.circuit);
        }
    }
    return result;
}

}  // namespace halfsplit::harness
