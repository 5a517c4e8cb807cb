#include "halfsplit/electrics/labels.hpp"

namespace halfsplit::electrics {

using harness::Harness;
using harness::Line;
using harness::none;

namespace {

std::string word(EdgeKind kind) {
    switch (kind) {
        case EdgeKind::Wire:
            return "wire";
        case EdgeKind::Contact:
            return "contact";
        case EdgeKind::Crimp:
            return "crimp";
        case EdgeKind::Through:
            return "through";
        case EdgeKind::Terminator:
            return "terminator";
        case EdgeKind::NoTerminator:
            return "extra terminator";
        case EdgeKind::Transceiver:
            return "transceiver";
        case EdgeKind::Load:
            return "loads";
        case EdgeKind::ShortLines:
            return "short";
        case EdgeKind::ShortGround:
            return "short to ground";
        case EdgeKind::ShortSupply:
            return "short to supply";
    }
    return {};
}

const char* word(Line line) {
    return line == Line::High ? "h" : "l";
}

// Whether the edge belongs to one line rather than to both.
bool of_one_line(EdgeKind kind) {
    return kind == EdgeKind::Wire || kind == EdgeKind::Contact || kind == EdgeKind::Crimp ||
           kind == EdgeKind::Through || kind == EdgeKind::ShortGround || kind == EdgeKind::ShortSupply;
}

std::string label(const Harness& harness, const EdgeRole& role) {
    std::string text = word(role.kind);
    if (role.part != none) text += ' ' + harness.parts[role.part].id;
    if (role.terminal != none) return text + ' ' + harness.terminals[role.terminal].cavity;
    if (of_one_line(role.kind)) return text + ' ' + word(role.line);
    return text;
}

}  // namespace

Labels labels(const Harness& harness, const Assembly& assembly) {
    Labels result;
    result.nodes.resize(assembly.circuit.nodes);
    const auto call = [&](Node node, const std::string& name) {
        if (node != none) result.nodes[node] = name;
    };
    for (const auto& module : assembly.modules) {
        const std::string inside = "inside " + harness.parts[module.part].id;
        call(module.high, inside + " h");
        call(module.low, inside + " l");
    }
    for (harness::Index terminal = 0; terminal < harness.terminals.size(); ++terminal)
        call(assembly.node_of_terminal[terminal], harness::terminal_name(harness, terminal));
    call(assembly.ground, "ground");
    call(assembly.supply, "supply");
    call(assembly.bias, "bias");
    for (const EdgeRole& role : assembly.roles) result.edges.push_back(label(harness, role));
    return result;
}

}  // namespace halfsplit::electrics
