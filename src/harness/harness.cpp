#include "halfsplit/harness/harness.hpp"

#include <algorithm>

namespace halfsplit::harness {

namespace {

template <typename Things>
Index find_by_id(const Things& things, std::string_view id) {
    const auto found =
        std::find_if(things.begin(), things.end(), [id](const auto& thing) { return thing.id == id; });
    return found == things.end() ? none : static_cast<Index>(found - things.begin());
}

}  // namespace

std::string_view word(PartKind kind) {
    switch (kind) {
        case PartKind::Module:
            return "module";
        case PartKind::Connector:
            return "connector";
        case PartKind::Splice:
            return "splice";
        case PartKind::Terminator:
            return "terminator";
        case PartKind::BridgePlug:
            return "bridge plug";
        case PartKind::Socket:
            return "diagnostic socket";
        case PartKind::Run:
            return "run";
    }
    return "part";
}

const std::vector<Line>& lines_of(const Network& network) {
    static const std::vector<Line> pair{Line::High, Line::Low};
    static const std::vector<Line> single{Line::High};
    return network.single_line ? single : pair;
}

const std::vector<Line>& lines_of(const Harness& harness, Index network) {
    static const Network unknown;
    return lines_of(network == none ? unknown : harness.networks[network]);
}

std::vector<Index> terminals_of(const Point& point) {
    if (point.terminal[1] == none) return {point.terminal[0]};
    return {point.terminal[0], point.terminal[1]};
}

std::string terminal_name(const Harness& harness, Index terminal) {
    const Terminal& it = harness.terminals.at(terminal);
    std::string name = harness.parts.at(it.part).id;
    if (it.half != 0) name += std::string(".") + it.half;
    return name + ':' + it.cavity;
}

std::string point_name(const Harness& harness, Index point) {
    const Point& it = harness.points.at(point);
    const std::string high = terminal_name(harness, it.terminal[0]);
    return it.terminal[1] == none ? high : high + '/' + harness.terminals.at(it.terminal[1]).cavity;
}

std::vector<std::string> ids_of(const Harness& harness, const std::vector<Index>& parts) {
    std::vector<std::string> ids;
    ids.reserve(parts.size());
    for (const Index part : parts) ids.push_back(harness.parts[part].id);
    return ids;
}

Index find_part(const Harness& harness, std::string_view id) {
    return find_by_id(harness.parts, id);
}
Index find_network(const Harness& harness, std::string_view id) {
    return find_by_id(harness.networks, id);
}
Index find_cover(const Harness& harness, std::string_view id) {
    return find_by_id(harness.covers, id);
}
Index find_place(const Harness& harness, std::string_view id) {
    return find_by_id(harness.places, id);
}

namespace {

// Whether `rest` begins with the piece; takes it off.
bool take_off(std::string_view& rest, std::string_view piece) {
    if (rest.substr(0, piece.size()) != piece) return false;
    rest.remove_prefix(piece.size());
    return true;
}

// As terminal_name() has it, without making the name: whole logs are looked up.
bool take_terminal_off(const Harness& harness, Index terminal, std::string_view& rest) {
    const Terminal& it = harness.terminals[terminal];
    if (!take_off(rest, harness.parts[it.part].id)) return false;
    if (it.half != 0 && !(take_off(rest, ".") && take_off(rest, {&it.half, 1}))) return false;
    return take_off(rest, ":") && take_off(rest, it.cavity);
}

}  // namespace

Index find_terminal(const Harness& harness, std::string_view name) {
    for (Index terminal = 0; terminal < harness.terminals.size(); ++terminal) {
        std::string_view rest = name;
        if (take_terminal_off(harness, terminal, rest) && rest.empty()) return terminal;
    }
    return none;
}

Index find_point(const Harness& harness, std::string_view name) {
    for (Index point = 0; point < harness.points.size(); ++point) {
        const Point& it = harness.points[point];
        std::string_view rest = name;
        if (!take_terminal_off(harness, it.terminal[0], rest)) continue;
        const bool pair = it.terminal[1] != none;
        if (pair && !(take_off(rest, "/") && take_off(rest, harness.terminals[it.terminal[1]].cavity)))
            continue;
        if (rest.empty()) return point;
    }
    return none;
}

const Access& access_of(const Harness& harness, Index terminal) {
    const Terminal& it = harness.terminals.at(terminal);
    const Part& part = harness.parts.at(it.part);
    if (it.half != 0) {
        const auto& own = part.half_access[it.half == 'a' ? 0 : 1];
        if (own) return *own;
    }
    return part.access;
}

WireEnd wire_at(const Harness& harness, Index terminal) {
    for (Index run = 0; run < harness.parts.size(); ++run) {
        for (const Line line : both_lines) {
            const auto& strand = harness.parts[run].strand[static_cast<std::size_t>(line)];
            if (strand && (strand->from == terminal || strand->to == terminal)) return {run, line};
        }
    }
    return {none, Line::High};
}

}  // namespace halfsplit::harness
