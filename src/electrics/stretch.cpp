#include "halfsplit/electrics/stretch.hpp"

#include <algorithm>
#include <optional>

namespace halfsplit::electrics {

using harness::both_lines;
using harness::Harness;
using harness::Index;
using harness::Line;
using harness::none;

namespace {

using Kind = Obstacle::Kind;

void add_once(std::vector<Index>& parts, Index part) {
    if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
}

// One line, from one end to the other.
class Way {
  public:
    Way(const Harness& harness, const Assembly& assembly, const Apart& apart)
        : harness_(harness), assembly_(assembly), edges_of_node_(assembly.circuit.nodes) {
        std::vector<char> open(assembly.circuit.edges.size(), 0);
        for (const Change& change : taken_apart(assembly, harness, apart)) open[change.edge] = 1;
        for (std::size_t edge = 0; edge < open.size(); ++edge) {
            const Edge& it = assembly.circuit.edges[edge];
            if (open[edge] != 0 || !is_present(it.ohm)) continue;
            edges_of_node_[it.from].push_back(edge);
            edges_of_node_[it.to].push_back(edge);
        }
    }

    std::optional<Obstacle> find(Node from, Node to) {
        if (from == none || to == none) return Obstacle{Kind::NotThere, {}, {}};
        came_by_.assign(assembly_.circuit.nodes, none);
        on_way_.assign(assembly_.circuit.nodes, 0);
        flood(from);
        if (from == to || came_by_[to] == none) return Obstacle{Kind::NoWay, {}, {}};
        trace(from, to);
        const bool any_wire = std::any_of(way_.begin(), way_.end(), [this](std::size_t edge) {
            return assembly_.roles[edge].kind == EdgeKind::Wire;
        });
        if (!any_wire) return Obstacle{Kind::NoWay, {}, {}};
        if (auto obstacle = on_the_way()) return obstacle;
        if (auto obstacle = branches(from, to)) return obstacle;
        return beyond(from, to);
    }

    std::vector<StretchItem> items() const {
        std::vector<StretchItem> result;
        double metres = 0, ohms = 0;
        for (const std::size_t edge : way_) {
            StretchItem item{edge, assembly_.roles[edge].part, metres, metres, ohms, ohms};
            if (assembly_.roles[edge].kind == EdgeKind::Wire) metres += harness_.parts[item.part].length_m;
            ohms += assembly_.circuit.edges[edge].ohm;
            item.to_m = metres;
            item.to_ohm = ohms;
            result.push_back(item);
        }
        return result;
    }

  private:
    // Along the line itself; what joins it to the other line or to ground is none of it.
    bool leads_on(std::size_t edge) const {
        const EdgeKind kind = assembly_.roles[edge].kind;
        return kind == EdgeKind::Wire || kind == EdgeKind::Contact || kind == EdgeKind::Crimp ||
               kind == EdgeKind::Through;
    }

    Node across(std::size_t edge, Node node) const {
        const Edge& it = assembly_.circuit.edges[edge];
        return it.from == node ? it.to : it.from;
    }

    void flood(Node from) {
        reached_ = {from};
        for (std::size_t at = 0; at < reached_.size(); ++at) {
            for (const std::size_t edge : edges_of_node_[reached_[at]]) {
                const Node next = across(edge, reached_[at]);
                if (!leads_on(edge) || next == from || came_by_[next] != none) continue;
                came_by_[next] = edge;
                reached_.push_back(next);
            }
        }
    }

    void trace(Node from, Node to) {
        way_.clear();
        on_way_[from] = 1;
        for (Node node = to; node != from; node = across(came_by_[node], node)) {
            on_way_[node] = 1;
            way_.push_back(came_by_[node]);
        }
        std::reverse(way_.begin(), way_.end());
    }

    // Terminators and modules at a node.
    void add_hanging(Node node, std::vector<Index>& parts) const {
        for (const std::size_t edge : edges_of_node_[node]) {
            const EdgeKind kind = assembly_.roles[edge].kind;
            if (kind == EdgeKind::Terminator || kind == EdgeKind::Transceiver)
                add_once(parts, assembly_.roles[edge].part);
        }
    }

    std::optional<Obstacle> on_the_way() const {
        std::vector<Index> hanging, endless;
        for (const Node node : reached_) {
            if (on_way_[node] != 0) add_hanging(node, hanging);
        }
        if (!hanging.empty()) return Obstacle{Kind::Between, hanging, {}};
        for (const std::size_t edge : way_) {
            const EdgeRole& role = assembly_.roles[edge];
            if (role.kind == EdgeKind::Wire && harness_.parts[role.part].length_m <= 0)
                add_once(endless, role.part);
        }
        if (!endless.empty()) return Obstacle{Kind::NoLength, endless, {}};
        return std::nullopt;
    }

    // Edges of a node on the way that lead off it.
    std::vector<std::size_t> leading_off(Node node) const {
        std::vector<std::size_t> result;
        for (const std::size_t edge : edges_of_node_[node]) {
            if (leads_on(edge) && std::find(way_.begin(), way_.end(), edge) == way_.end())
                result.push_back(edge);
        }
        return result;
    }

    std::optional<Obstacle> branches(Node from, Node to) const {
        Obstacle obstacle{Kind::Branched, {}, {}};
        for (const Node node : reached_) {
            if (on_way_[node] == 0 || node == from || node == to) continue;
            for (const std::size_t edge : leading_off(node))
                add_once(obstacle.parts, assembly_.roles[edge].part);
        }
        if (obstacle.parts.empty()) return std::nullopt;
        return obstacle;
    }

    // Nothing branches off between the ends: what else was reached lies beyond them.
    std::optional<Obstacle> beyond(Node from, Node to) const {
        if (reached_.size() == way_.size() + 1) return std::nullopt;
        Obstacle obstacle{Kind::GoesOn, {}, {}};
        for (const Node node : reached_) {
            if (on_way_[node] == 0) add_hanging(node, obstacle.parts);
        }
        if (!obstacle.parts.empty()) obstacle.kind = Kind::Connected;
        for (const Node end : {from, to}) {
            for (const std::size_t edge : leading_off(end)) {
                if (assembly_.roles[edge].kind == EdgeKind::Contact)
                    add_once(obstacle.unplug, assembly_.roles[edge].part);
            }
        }
        return obstacle;
    }

    const Harness& harness_;
    const Assembly& assembly_;
    std::vector<std::vector<std::size_t>> edges_of_node_;  // what conducts as things stand
    std::vector<Node> reached_;                            // nearest first
    std::vector<std::size_t> came_by_;                     // by node: edge on the way from the first end
    std::vector<char> on_way_;                             // by node
    std::vector<std::size_t> way_;                         // edges, from the first end
};

}  // namespace

std::variant<Stretch, Obstacle> find_stretch(const Harness& harness, const Assembly& assembly,
                                             const Apart& apart, Index from, Index to) {
    Way way(harness, assembly, apart);
    Stretch stretch;
    for (const Line line : both_lines) {
        const auto at = static_cast<std::size_t>(line);
        const auto node = [&](Index point) {
            const Index terminal = harness.points[point].terminal.at(at);
            return terminal == none ? none : assembly.node_of_terminal[terminal];
        };
        if (auto obstacle = way.find(node(from), node(to))) return *obstacle;
        (line == Line::High ? stretch.high : stretch.low) = way.items();
    }
    stretch.length_m = stretch.high.back().to_m;
    return stretch;
}

}  // namespace halfsplit::electrics
