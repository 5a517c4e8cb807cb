#include "halfsplit/electrics/assembly.hpp"

#include "halfsplit/electrics/conductor.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <utility>

namespace halfsplit::electrics {

using harness::both_lines;
using harness::Harness;
using harness::Index;
using harness::Line;
using harness::none;
using harness::Part;
using harness::PartKind;
using harness::Port;

namespace {

// A pair of nodes, by line; `none` where the line is missing.
using Pair = std::array<Node, 2>;

std::size_t at(Line line) {
    return static_cast<std::size_t>(line);
}

class Builder {
  public:
    Builder(const Harness& harness, Index network, const std::vector<char>& present, Power power,
            const Figures& figures)
        : harness_(harness), network_(network), present_(present), figures_(figures) {
        result_.node_of_terminal.assign(harness.terminals.size(), none);
        result_.edges_of_part.resize(harness.parts.size());
        behind_.assign(harness.terminals.size(), none);
        line_.assign(harness.terminals.size(), Line::High);
        index_connectors();
        result_.ground = add_node();
        result_.supply = add_node();
        add_edge(result_.supply, result_.ground, figures_.loads, {.kind = EdgeKind::Load});
        if (power != Power::Off) hold(power == Power::Awake ? figures_.awake_volt : figures_.asleep_volt);
    }

    Assembly build() {
        // Runs last: at splices and sockets they end on nodes that those parts make.
        for (Index part = 0; part < harness_.parts.size(); ++part) {
            if (present_[part] != 0 && harness_.parts[part].kind != PartKind::Run) add_part(part);
        }
        for (Index part = 0; part < harness_.parts.size(); ++part) {
            if (present_[part] != 0 && harness_.parts[part].kind == PartKind::Run) add_run(part);
        }
        for (Index part = 0; part < harness_.parts.size(); ++part) {
            if (present_[part] != 0 && harness_.parts[part].kind == PartKind::Connector) add_connector(part);
        }
        find_feed();
        result_.circuit.nodes = nodes_;
        return std::move(result_);
    }

  private:
    Node add_node() { return nodes_++; }

    void hold(double bias_volt) {
        result_.bias = add_node();
        result_.held = {
            {result_.ground, 0}, {result_.supply, figures_.supply_volt}, {result_.bias, bias_volt}};
    }

    Node node_of(Index terminal) {
        if (terminal == none) return none;
        Node& node = result_.node_of_terminal[terminal];
        if (node == none) node = add_node();
        return node;
    }

    void add_edge(Node from, Node to, double ohm, const EdgeRole& role) {
        if (from == none || to == none) return;
        if (role.part != none) result_.edges_of_part[role.part].push_back(result_.roles.size());
        result_.circuit.edges.push_back({from, to, ohm});
        result_.roles.push_back(role);
    }

    // The contacts from a part's terminals to its inside.
    Pair add_contacts(Index part, const Port& port) {
        Pair inside{none, none};
        for (const Line line : both_lines) {
            const Index terminal = port.terminal[at(line)];
            if (terminal == none) continue;
            inside[at(line)] = add_node();
            add_edge(node_of(terminal), inside[at(line)], figures_.contact,
                     {.kind = EdgeKind::Contact, .part = part, .line = line, .terminal = terminal});
        }
        return inside;
    }

    // What could be short-circuited here, as edges that are not there in a sound bus.
    void add_shorts(Index part, const Pair& pair) {
        add_edge(pair[0], pair[1], open_circuit, {.kind = EdgeKind::ShortLines, .part = part});
        for (const Line line : both_lines) {
            add_edge(pair[at(line)], result_.ground, open_circuit,
                     {.kind = EdgeKind::ShortGround, .part = part, .line = line});
            add_edge(pair[at(line)], result_.supply, open_circuit,
                     {.kind = EdgeKind::ShortSupply, .part = part, .line = line});
        }
    }

    void add_through(Index part, const Pair& in, const Pair& out) {
        for (const Line line : both_lines) {
            add_edge(in[at(line)], out[at(line)], figures_.through,
                     {.kind = EdgeKind::Through, .part = part, .line = line});
        }
    }

    void add_part(Index part) {
        const Part& candidate = harness_.parts[part];
        switch (candidate.kind) {
            case PartKind::Module:
                for (const auto& attachment : candidate.attachments) {
                    if (attachment.network == network_) add_module(part, attachment);
                }
                break;
            case PartKind::Socket:
                for (const auto& attachment : candidate.attachments) {
                    if (attachment.network == network_) add_socket(part, attachment.in);
                }
                break;
            case PartKind::Terminator:
                if (candidate.network == network_) add_terminator(part);
                break;
            case PartKind::BridgePlug:
                if (candidate.network == network_) add_plug(part);
                break;
            case PartKind::Splice:
                if (candidate.network == network_) add_splice(part);
                break;
            case PartKind::Connector:
            case PartKind::Run:
                break;
        }
    }

    void add_module(Index part, const harness::Attachment& attachment) {
        using Terminator = harness::Attachment::Terminator;
        const Pair in = add_contacts(part, attachment.in);
        if (attachment.loop) add_through(part, in, add_contacts(part, attachment.out));
        add_edge(in[0], in[1], figures_.line_to_line, {.kind = EdgeKind::Transceiver, .part = part});
        const Node rest = result_.bias != none ? result_.bias : result_.ground;
        for (const Line line : both_lines) {
            add_edge(in[at(line)], rest, attachment.load_ohm.value_or(figures_.line_to_ground),
                     {.kind = EdgeKind::Transceiver, .part = part, .line = line});
        }
        const bool terminated =
            attachment.terminator == Terminator::BuiltIn || attachment.terminator == Terminator::SwitchedOn;
        add_edge(in[0], in[1], terminated ? attachment.terminator_ohm : open_circuit,
                 {.kind = terminated ? EdgeKind::Terminator : EdgeKind::NoTerminator, .part = part});
        add_shorts(part, in);
        result_.modules.push_back({part, in[0], in[1]});
    }

    // A probe or tester goes in from the front; the wire is behind the contact.
    void add_socket(Index part, const Port& port) {
        Pair behind{none, none};
        for (const Line line : both_lines) {
            const Index terminal = port.terminal[at(line)];
            if (terminal == none) continue;
            behind[at(line)] = add_node();
            behind_[terminal] = behind[at(line)];
            add_edge(behind[at(line)], node_of(terminal), figures_.contact,
                     {.kind = EdgeKind::Contact, .part = part, .line = line, .terminal = terminal});
        }
        if (port.terminal[0] != none) result_.socket_high = node_of(port.terminal[0]);
        if (port.terminal[1] != none) result_.socket_low = node_of(port.terminal[1]);
        add_shorts(part, behind);
    }

    void add_terminator(Index part) {
        const Part& terminator = harness_.parts[part];
        const Pair inside = add_contacts(part, terminator.in);
        add_edge(inside[0], inside[1], terminator.ohm, {.kind = EdgeKind::Terminator, .part = part});
        add_shorts(part, inside);
    }

    void find_feed() {
        const harness::Network& network = harness_.networks[network_];
        result_.single_line = network.single_line;
        if (!network.single_line || result_.socket_high != none || network.clip == none) return;
        result_.socket_high = result_.node_of_terminal[harness_.points[network.clip].terminal[0]];
    }

    void add_plug(Index part) {
        const Part& plug = harness_.parts[part];
        const Pair in = add_contacts(part, plug.in);
        add_through(part, in, add_contacts(part, plug.out));
        add_shorts(part, in);
    }

    void add_splice(Index part) {
        const Part& splice = harness_.parts[part];
        add_shorts(part, {node_of(splice.in.terminal[0]), node_of(splice.in.terminal[1])});
    }

    // Where a wire ends: its terminal, or behind a socket's contact, or before a splice's crimp.
    Node wire_end(Index run, Line line, Index terminal) {
        const Index part = harness_.terminals[terminal].part;
        if (harness_.parts[part].kind == PartKind::Splice) {
            const Node end = add_node();
            add_edge(end, node_of(terminal), figures_.crimp,
                     {.kind = EdgeKind::Crimp, .part = part, .line = line, .terminal = terminal, .run = run});
            return end;
        }
        return behind_[terminal] != none ? behind_[terminal] : node_of(terminal);
    }

    void add_run(Index part) {
        const Part& run = harness_.parts[part];
        if (run.network != network_) return;
        Pair start{none, none};
        const double ohm = std::max(run.length_m * copper_ohm_per_m(run.section_mm2), 1e-4);
        for (const Line line : both_lines) {
            const auto& strand = run.strand[at(line)];
            if (!strand) continue;
            start[at(line)] = wire_end(part, line, strand->from);
            line_[strand->from] = line;
            line_[strand->to] = line;
            add_edge(start[at(line)], wire_end(part, line, strand->to), ohm,
                     {.kind = EdgeKind::Wire, .part = part, .line = line});
        }
        add_shorts(part, start);
    }

    // Mated cavities of the same name, where both halves carry this network; an empty half has no mate to it.
    void add_connector(Index part) {
        for (const auto& [first, second] : mates_[part]) {
            if (result_.node_of_terminal[first] == none || result_.node_of_terminal[second] == none) continue;
            add_edge(node_of(first), node_of(second), figures_.contact,
                     {.kind = EdgeKind::Contact, .part = part, .line = line_[first], .terminal = first});
        }
        for (const Index point : points_[part]) {
            const auto& terminal = harness_.points[point].terminal;
            if (harness_.terminals[terminal[0]].half != 'a' || result_.node_of_terminal[terminal[0]] == none)
                continue;
            add_shorts(part, {node_of(terminal[0]), node_of(terminal[1])});
        }
    }

    void index_connectors() {
        mates_.resize(harness_.parts.size());
        points_.resize(harness_.parts.size());
        std::map<std::pair<Index, std::string>, Index> first_half;
        for (Index index = 0; index < harness_.terminals.size(); ++index) {
            const auto& terminal = harness_.terminals[index];
            if (terminal.half == 'a') first_half[{terminal.part, terminal.cavity}] = index;
        }
        for (Index index = 0; index < harness_.terminals.size(); ++index) {
            const auto& terminal = harness_.terminals[index];
            if (terminal.half != 'b') continue;
            const auto mate = first_half.find({terminal.part, terminal.cavity});
            if (mate != first_half.end()) mates_[terminal.part].emplace_back(mate->second, index);
        }
        for (Index point = 0; point < harness_.points.size(); ++point) {
            if (harness_.points[point].network == network_)
                points_[harness_.points[point].part].push_back(point);
        }
    }

    const Harness& harness_;
    Index network_;
    const std::vector<char>& present_;
    Figures figures_;
    Assembly result_;
    std::size_t nodes_ = 0;
    std::vector<Node> behind_;  // by terminal of a socket: node behind its contact
    std::vector<Line> line_;    // by terminal
    std::vector<std::vector<std::pair<Index, Index>>>
        mates_;                               // by part: terminals of half a and half b that mate
    std::vector<std::vector<Index>> points_;  // by part: points of this network
};

}  // namespace

Assembly assemble(const Harness& harness, Index network, const std::vector<char>& present, Power power,
                  const Figures& figures) {
    return Builder(harness, network, present, power, figures).build();
}

std::vector<Change> taken_apart(const Assembly& assembly, const Harness& harness, const Apart& apart) {
    std::vector<Change> changes;
    for (const Index part : apart) {
        if (harness.parts[part].kind == PartKind::Socket) continue;
        for (const std::size_t edge : assembly.edges_of_part[part]) {
            if (assembly.roles[edge].kind == EdgeKind::Contact) changes.push_back({edge, open_circuit});
        }
    }
    return changes;
}

}  // namespace halfsplit::electrics
