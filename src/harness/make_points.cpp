// Points: pairs of terminals where a probe can be set.
#include "harness/reading.hpp"

#include <algorithm>
#include <array>
#include <deque>
#include <map>
#include <unordered_map>
#include <utility>

namespace halfsplit::harness {

namespace {

using Pair = std::array<Index, 2>;

// The wire ends at one connector half that belong to one network, in order of run: pairs that one run brings,
// then what is left of each line.
struct HalfEnds {
    std::vector<Pair> pairs;
    std::array<std::deque<Index>, 2> single;
};

// By part, half and network; ordered, so that points come in the order of the parts.
using Ends = std::map<std::tuple<Index, char, Index>, HalfEnds>;

void add_run_end(const Harness& harness, Index network, const Pair& end, Ends& ends) {
    const auto where = [&](Index terminal) {
        const Terminal& it = harness.terminals[terminal];
        return std::tuple(it.part, it.half, network);
    };
    if (end[0] != none && end[1] != none && where(end[0]) == where(end[1])) {
        if (harness.terminals[end[0]].half != 0) ends[where(end[0])].pairs.push_back(end);
        return;
    }
    const bool alone = lines_of(harness, network).size() == 1;
    for (std::size_t line = 0; line < 2; ++line) {
        if (end[line] == none || harness.terminals[end[line]].half == 0) continue;
        if (alone) {
            ends[where(end[line])].pairs.push_back(end);
            continue;
        }
        ends[where(end[line])].single[line].push_back(end[line]);
    }
}

Ends connector_ends(const Harness& harness) {
    Ends ends;
    for (const Part& run : harness.parts) {
        if (run.kind != PartKind::Run) continue;
        Pair from{none, none};
        Pair to{none, none};
        for (std::size_t line = 0; line < 2; ++line) {
            if (!run.strand[line]) continue;
            from[line] = run.strand[line]->from;
            to[line] = run.strand[line]->to;
        }
        add_run_end(harness, run.network, from, ends);
        add_run_end(harness, run.network, to, ends);
    }
    for (const Part& plug : harness.parts) {
        if (plug.kind != PartKind::BridgePlug) continue;
        for (const Port& port : {plug.in, plug.out}) {
            if (port.terminal[0] == none || harness.terminals[port.terminal[0]].part == none) continue;
            add_run_end(harness, plug.network, port.terminal, ends);
        }
    }
    return ends;
}

class Points {
  public:
    explicit Points(Harness& harness) : harness_(harness) {}

    void add(Index network, Index part, const Pair& terminal) {
        if (network == none || terminal[0] == none) return;
        if (terminal[1] == none && !harness_.networks[network].single_line) return;
        if (!known_.emplace(terminal, harness_.points.size()).second) return;
        harness_.points.push_back({network, part, terminal});
    }

    void add_connector(const Ends& ends, Index part) {
        for (auto it = ends.lower_bound({part, 0, 0}); it != ends.end() && std::get<0>(it->first) == part;
             ++it) {
            const Index network = std::get<2>(it->first);
            for (const Pair& pair : it->second.pairs) add(network, part, pair);
            auto single = it->second.single;
            while (!single[0].empty() && !single[1].empty()) {
                add(network, part, {single[0].front(), single[1].front()});
                single[0].pop_front();
                single[1].pop_front();
            }
        }
    }

  private:
    Harness& harness_;
    std::map<Pair, Index> known_;
};

// Where a splice has wires of both lines; and what no plug that sits elsewhere brings.
bool has_wires(const Reading& reading, const Port& port) {
    return std::all_of(port.terminal.begin(), port.terminal.end(), [&](Index terminal) {
        return terminal == none || reading.terminals.use(terminal).wires > 0;
    });
}

void add_part(const Reading& reading, const Ends& ends, Index index, Points& points) {
    const Part& part = reading.harness.parts[index];
    for (const Attachment& attachment : part.attachments) {
        points.add(attachment.network, index, attachment.in.terminal);
        points.add(attachment.network, index, attachment.out.terminal);
    }
    if (part.kind == PartKind::Connector) points.add_connector(ends, index);
    if (part.kind == PartKind::Splice && !has_wires(reading, part.in)) return;
    for (const Port& port : {part.in, part.out}) {
        const bool own =
            port.terminal[0] != none && reading.harness.terminals[port.terminal[0]].part == index;
        if (own) points.add(part.network, index, port.terminal);
    }
}

void set_clips(Reading& reading, const Member& networks) {
    Harness& harness = reading.harness;
    std::unordered_map<std::string, Index> by_name;
    for (Index point = 0; point < harness.points.size(); ++point) {
        by_name.emplace(point_name(harness, point), point);
        Index& clip = harness.networks[harness.points[point].network].clip;
        if (clip == none) clip = point;  // the socket comes first among the parts
    }
    const std::vector<Member> entries = networks.entries();
    for (Index network = 0; network < entries.size(); ++network) {
        const Member member = entries[network]["clip"];
        if (!member.is_text() || member.text().empty()) continue;
        const auto found = by_name.find(member.text());
        if (found != by_name.end() && harness.points[found->second].network == network) {
            harness.networks[network].clip = found->second;
            continue;
        }
        if (!reading.wiring_sound) continue;  // the point may be missing because of what was found already
        const Index clip = harness.networks[network].clip;
        reading.findings.error(
            "unknown-reference", member.pointer(),
            {"no point of " + harness.networks[network].id + " is named \"" + member.text() + "\"",
             "a point such as DS:6/14", clip == none ? "" : point_name(harness, clip),
             "correct it, or leave it out for the point at the socket"});
    }
}

}  // namespace

void make_points(Reading& reading, const Member& file) {
    const Ends ends = connector_ends(reading.harness);
    Points points(reading.harness);
    for (Index index = 0; index < reading.harness.parts.size(); ++index)
        add_part(reading, ends, index, points);
    set_clips(reading, file["networks"]);
}

}  // namespace halfsplit::harness
