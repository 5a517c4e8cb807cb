#include "harness/links.hpp"

#include <numeric>
#include <string>

namespace halfsplit::harness {

namespace {

void link_ports(const Port& in, const Port& out, Index part, std::vector<Link>& links) {
    for (std::size_t line = 0; line < 2; ++line) {
        if (in.terminal[line] == none || out.terminal[line] == none) continue;
        links.push_back({in.terminal[line], out.terminal[line], part, 0});
    }
}

// Cavity by cavity, half a to half b.
void link_mates(const Harness& harness, const std::vector<Fitted>& presence, std::vector<Link>& links) {
    std::unordered_map<std::string, Index> half_a;
    const auto key = [](const Terminal& it) { return std::to_string(it.part) + ':' + it.cavity; };
    for (Index terminal = 0; terminal < harness.terminals.size(); ++terminal) {
        if (harness.terminals[terminal].half == 'a')
            half_a.emplace(key(harness.terminals[terminal]), terminal);
    }
    for (Index terminal = 0; terminal < harness.terminals.size(); ++terminal) {
        const Terminal& it = harness.terminals[terminal];
        if (it.half != 'b' || it.network == none || presence[it.part] == Fitted::No) continue;
        const auto mate = half_a.find(key(it));
        if (mate == half_a.end() || harness.terminals[mate->second].network == none) continue;
        links.push_back({mate->second, terminal, it.part, 0});
    }
}

}  // namespace

std::vector<Link> make_links(const Harness& harness, const std::vector<Fitted>& presence) {
    std::vector<Link> links;
    for (Index index = 0; index < harness.parts.size(); ++index) {
        if (presence[index] == Fitted::No) continue;
        const Part& part = harness.parts[index];
        for (const auto& strand : part.strand) {
            if (strand) links.push_back({strand->from, strand->to, index, part.length_m});
        }
        for (const Attachment& attachment : part.attachments) {
            if (attachment.loop) link_ports(attachment.in, attachment.out, index, links);
        }
        if (part.kind == PartKind::BridgePlug) link_ports(part.in, part.out, index, links);
    }
    link_mates(harness, presence, links);
    return links;
}

Islands::Islands(std::size_t terminals) : parent_(terminals) {
    std::iota(parent_.begin(), parent_.end(), Index{0});
}

void Islands::join(Index a, Index b) {
    parent_[of(a)] = of(b);
}

Index Islands::of(Index terminal) const {
    while (parent_[terminal] != terminal) {
        parent_[terminal] = parent_[parent_[terminal]];  // shortens the way for the next one
        terminal = parent_[terminal];
    }
    return terminal;
}

}  // namespace halfsplit::harness
