#include "halfsplit/electrics/netlist.hpp"

#include "halfsplit/electrics/graph.hpp"

#include <fmt/format.h>

namespace halfsplit::electrics {

namespace {

// The node far above everything to which floating parts are tied.
constexpr const char* far_node = "floating";

// "X1.a:4" -> "_x1_a_4". The simulator takes small and capital letters for the same, and signs for
// arithmetic.
std::string fit(const std::vector<std::string>& labels, std::size_t index) {
    if (index >= labels.size() || labels[index].empty()) return {};
    std::string result = "_";
    for (const char letter : labels[index]) {
        const bool capital = letter >= 'A' && letter <= 'Z';
        const bool plain = (letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9');
        const char small = capital ? static_cast<char>(letter - 'A' + 'a') : letter;
        result += capital || plain ? small : '_';
    }
    return result;
}

}  // namespace

// Names of one question's nodes and edges: q3_n17_x1_a_4 and q3_e5_wire_w4_h. The numbers make them unique.
struct Netlist::Namer {
    std::size_t question;
    const Labels& labels;

    std::string node(Node index) const {
        return fmt::format("q{}_n{}{}", question, index, fit(labels.nodes, index));
    }
    std::string edge(std::size_t index) const {
        return fmt::format("q{}_e{}{}", question, index, fit(labels.edges, index));
    }
};

Netlist::Netlist(std::string_view title) {
    const std::string one_line(title.substr(0, title.find_first_of("\r\n")));
    elements_ = fmt::format("* {}\nv_{} {} 0 dc {}\n", one_line, far_node, far_node, tie_volt);
}

std::string Netlist::add_ohms(const Circuit& circuit, const std::vector<Change>& changes, Tips tips,
                              const Labels& labels) {
    const Namer name{++questions_, labels};
    const Circuit asked = changed(circuit, changes);
    std::string figure = fmt::format("ohm_{}", questions_);
    elements_ +=
        fmt::format("* {}: one ampere from {} to {}\n", figure, name.node(tips.red), name.node(tips.black));
    add_resistors(asked, name);
    elements_ += fmt::format("v_q{}_black {} 0 dc 0\n", questions_, name.node(tips.black));
    elements_ += fmt::format("i_q{}_test 0 {} dc 1\n", questions_, name.node(tips.red));
    add_ties(asked, {tips.black}, "0", name);
    add_figure(figure, name.node(tips.red));
    return figure;
}

std::vector<std::string> Netlist::add_volts(const Circuit& circuit, const std::vector<Change>& changes,
                                            const std::vector<Held>& held, const std::vector<Node>& nodes,
                                            const Labels& labels) {
    const Namer name{++questions_, labels};
    const Circuit asked = changed(circuit, changes);
    elements_ += fmt::format("* volt_{}: the voltages of {} nodes\n", questions_, nodes.size());
    add_resistors(asked, name);
    std::vector<Node> held_nodes;
    for (const Held& one : held) {
        const std::string node = name.node(one.node);
        elements_ += fmt::format("v_{} {} 0 dc {}\n", node, node, one.volt);
        held_nodes.push_back(one.node);
    }
    add_ties(asked, held_nodes, far_node, name);
    std::vector<std::string> figures;
    for (const Node node : nodes) {
        figures.push_back(fmt::format("volt_{}_{}", questions_, figures.size() + 1));
        add_figure(figures.back(), name.node(node));
    }
    return figures;
}

void Netlist::add_resistors(const Circuit& circuit, const Namer& name) {
    for (std::size_t e = 0; e < circuit.edges.size(); ++e) {
        const Edge& edge = circuit.edges[e];
        if (!is_present(edge.ohm)) continue;
        elements_ +=
            fmt::format("r_{} {} {} {}\n", name.edge(e), name.node(edge.from), name.node(edge.to), edge.ohm);
    }
}

void Netlist::add_ties(const Circuit& circuit, const std::vector<Node>& held, const char* to,
                       const Namer& name) {
    std::vector<char> conducts;
    for (const Edge& edge : circuit.edges) conducts.push_back(is_present(edge.ohm) ? 1 : 0);
    const Graph graph(circuit);
    const std::vector<std::size_t> component = graph.components(conducts);
    std::vector<char> tied(circuit.nodes, 0);  // by component
    for (const Node node : held) tied[component[node]] = 1;
    for (Node node = 0; node < circuit.nodes; ++node) {
        if (tied[component[node]] != 0) continue;
        tied[component[node]] = 1;
        elements_ += fmt::format("r_tie_{} {} {} {}\n", name.node(node), name.node(node), to, tie_ohm);
    }
}

void Netlist::add_figure(const std::string& figure, const std::string& node) {
    commands_ += fmt::format("let {} = v({})\nprint {}\n", figure, node, figure);
}

std::string Netlist::text() const {
    return elements_ +
           ".options reltol=1e-12 vntol=1e-15 abstol=1e-15\n"
           ".control\n"
           "set numdgt=12\n"
           "op\n" +
           commands_ +
           "quit\n"
           ".endc\n"
           ".end\n";
}

}  // namespace halfsplit::electrics
