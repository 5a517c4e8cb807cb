#include "support/random_network.hpp"

#include <cmath>
#include <utility>

namespace halfsplit::test {

namespace {

using electrics::Node;
using electrics::open_circuit;

class Weaver {
  public:
    Weaver(Random& dice, bool powered) : dice_(dice) {
        result_.circuit.nodes = 2;  // ground and supply
        add_edge(result_.supply, result_.ground, 150);
        rest_ = result_.ground;
        // Some buses have no transceiver at all, so that their parts can be wholly apart or float.
        transceivers_percent_ = dice_.chance(35) ? 0 : dice_.between(5, 60);
        if (!powered) return;
        rest_ = result_.circuit.nodes++;
        const double bias = dice_.chance(25) ? 0 : 2.5;  // asleep or awake
        result_.held = {{result_.ground, 0}, {result_.supply, 12.6}, {rest_, bias}};
    }

    RandomNetwork weave(std::size_t points) {
        for (std::size_t point = 0; point < points; ++point) {
            result_.points.push_back({result_.circuit.nodes, result_.circuit.nodes + 1});
            result_.circuit.nodes += 2;
        }
        for (const auto& [from, to] : links(points)) add_link(from, to);
        for (const auto& point : result_.points) add_fittings(point);
        for (std::size_t left = dice_.below(5); left > 0; --left) add_terminator();
        for (std::size_t left = dice_.between(1, 2); left > 0; --left) add_fault();
        return std::move(result_);
    }

  private:
    using Links = std::vector<std::pair<std::size_t, std::size_t>>;

    // Which points a piece of wire joins.
    Links links(std::size_t points) {
        Links result;
        const std::size_t layout = dice_.below(5);
        const std::size_t arms = layout == 2 ? 3 : dice_.between(4, 7);
        for (std::size_t point = 1; point < points; ++point) {
            switch (layout) {
                case 1:  // stubs: the odd ones hang on the even ones
                    result.emplace_back(point % 2 == 1 ? point - 1 : point - 2, point);
                    break;
                case 2:  // tee, star: arms from the first point
                case 3:
                    result.emplace_back(point > arms ? point - arms : 0, point);
                    break;
                default:  // chain, ring
                    result.emplace_back(point - 1, point);
            }
        }
        if (layout == 4 && points > 2) result.emplace_back(points - 1, 0);
        return result;
    }

    double between(double least, double most) {
        const double share = static_cast<double>(dice_.next() >> 11U) * 0x1.0p-53;
        return least * std::pow(most / least, share);
    }

    std::size_t add_edge(Node from, Node to, double ohm) {
        result_.circuit.edges.push_back({from, to, ohm});
        return result_.circuit.edges.size() - 1;
    }

    // Milliohms: a contact, to half an ohm: many metres of thin wire.
    void add_link(std::size_t from, std::size_t to) {
        std::array<std::size_t, 2> link{};
        for (std::size_t line = 0; line < 2; ++line)
            link[line] = add_edge(result_.points[from][line], result_.points[to][line], between(0.002, 0.5));
        links_.push_back(link);
    }

    // What may be at a point: a transceiver; shorts as edges that are not there.
    void add_fittings(const std::array<Node, 2>& point) {
        if (dice_.chance(transceivers_percent_)) {
            add_edge(point[0], point[1], between(10e3, 100e3));                       // ISO 11898-2
            for (const Node line : point) add_edge(line, rest_, between(5e3, 50e3));  // the same
        }
        shorts_.push_back(add_edge(point[0], point[1], open_circuit));
        for (const Node line : point) {
            shorts_.push_back(add_edge(line, result_.ground, open_circuit));
            shorts_.push_back(add_edge(line, result_.supply, open_circuit));
        }
    }

    void add_terminator() {
        const auto& point = result_.points[dice_.below(result_.points.size())];
        terminators_.push_back(add_edge(point[0], point[1], between(100, 130)));  // ISO 11898-2
    }

    void add_fault() {
        const std::size_t what = dice_.below(6);
        const std::size_t line = dice_.below(2);
        if (what == 0 || (links_.empty() && what < 4)) {
            change(shorts_[dice_.below(shorts_.size())], between(0.1, 100));
        } else if (what == 1) {
            for (const std::size_t edge : links_[dice_.below(links_.size())]) change(edge, open_circuit);
        } else if (what < 4) {
            change(links_[dice_.below(links_.size())][line], what == 2 ? open_circuit : between(2, 5000));
        } else if (what == 4 && !terminators_.empty()) {
            change(terminators_[dice_.below(terminators_.size())], open_circuit);
        } else {
            change(shorts_[5 * dice_.below(result_.points.size())], 120);  // a terminator too many
        }
    }

    // Each edge at most once.
    void change(std::size_t edge, double ohm) {
        for (const auto& one : result_.faults) {
            if (one.edge == edge) return;
        }
        result_.faults.push_back({edge, ohm});
    }

    Random& dice_;
    RandomNetwork result_;
    Node rest_ = 0;  // where the transceivers' resistances from line to ground end
    std::size_t transceivers_percent_ = 0;
    std::vector<std::array<std::size_t, 2>> links_;  // edges, by line
    std::vector<std::size_t> shorts_;                // edges: five for each point, H to L first
    std::vector<std::size_t> terminators_;
};

}  // namespace

RandomNetwork random_network(Random& dice, bool powered, std::size_t fewest, std::size_t most) {
    const std::size_t points = dice.between(fewest, most);
    return Weaver(dice, powered).weave(points);
}

}  // namespace halfsplit::test
