#include "harness/terminals.hpp"

#include "harness/names.hpp"

namespace halfsplit::harness {

std::optional<TerminalReference> parse_terminal(const std::string& text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string::npos) return std::nullopt;
    TerminalReference reference;
    reference.part = text.substr(0, colon);
    reference.cavity = text.substr(colon + 1);
    const std::size_t dot = reference.part.find('.');
    if (dot != std::string::npos) {
        const std::string half = reference.part.substr(dot + 1);
        if (half != "a" && half != "b") return std::nullopt;
        reference.half = half.front();
        reference.part.resize(dot);
    }
    if (!is_name(reference.part) || !is_name(reference.cavity, true)) return std::nullopt;
    return reference;
}

std::string Terminals::key(Index part, char half, const std::string& cavity) {
    return std::to_string(part) + (half == 0 ? '-' : half) + cavity;
}

Index Terminals::make(Harness& harness, Index part, char half, const std::string& cavity) {
    const auto [entry, fresh] = by_key_.emplace(key(part, half, cavity), harness.terminals.size());
    if (fresh) {
        Terminal terminal;
        terminal.part = part;
        terminal.half = half;
        terminal.cavity = cavity;
        harness.terminals.push_back(terminal);
        uses_.emplace_back();
    }
    return entry->second;
}

Index Terminals::find(Index part, char half, const std::string& cavity) const {
    const auto found = by_key_.find(key(part, half, cavity));
    return found == by_key_.end() ? none : found->second;
}

Index Terminals::mate(const Harness& harness, Index terminal) const {
    const Terminal& it = harness.terminals[terminal];
    if (it.half == 0) return none;
    return find(it.part, it.half == 'a' ? 'b' : 'a', it.cavity);
}

}  // namespace halfsplit::harness
