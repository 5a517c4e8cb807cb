#include "halfsplit/electrics/graph.hpp"

namespace halfsplit::electrics {

namespace {
constexpr std::size_t unmarked = static_cast<std::size_t>(-1);
}

Graph::Graph(const Circuit& circuit) : first_(circuit.nodes + 1, 0) {
    for (const Edge& edge : circuit.edges) {
        ++first_[edge.from + 1];
        ++first_[edge.to + 1];
    }
    for (std::size_t node = 0; node < circuit.nodes; ++node) first_[node + 1] += first_[node];
    neighbours_.resize(first_.back());
    std::vector<std::size_t> next(first_.begin(), first_.end() - 1);
    for (std::size_t index = 0; index < circuit.edges.size(); ++index) {
        const Edge& edge = circuit.edges[index];
        neighbours_[next[edge.from]++] = {edge.to, index};
        neighbours_[next[edge.to]++] = {edge.from, index};
    }
}

void Graph::flood(Node start, std::size_t mark, std::vector<std::size_t>& marks,
                  const std::vector<char>& conducts) const {
    std::vector<Node> waiting{start};
    marks[start] = mark;
    while (!waiting.empty()) {
        const Node node = waiting.back();
        waiting.pop_back();
        for (std::size_t at = first_[node]; at < first_[node + 1]; ++at) {
            const Neighbour& neighbour = neighbours_[at];
            if (conducts[neighbour.edge] == 0 || marks[neighbour.node] != unmarked) continue;
            marks[neighbour.node] = mark;
            waiting.push_back(neighbour.node);
        }
    }
}

std::vector<std::size_t> Graph::components(const std::vector<char>& conducts) const {
    std::vector<std::size_t> marks(first_.size() - 1, unmarked);
    std::size_t count = 0;
    for (Node node = 0; node < marks.size(); ++node) {
        if (marks[node] == unmarked) flood(node, count++, marks, conducts);
    }
    return marks;
}

std::vector<char> Graph::reached(const std::vector<Node>& starts, const std::vector<char>& conducts) const {
    std::vector<std::size_t> marks(first_.size() - 1, unmarked);
    for (const Node start : starts) {
        if (marks[start] == unmarked) flood(start, 0, marks, conducts);
    }
    std::vector<char> result(marks.size(), 0);
    for (Node node = 0; node < marks.size(); ++node) result[node] = marks[node] == unmarked ? 0 : 1;
    return result;
}

std::vector<Graph::Step> Graph::walk(const std::vector<char>& conducts) const {
    std::vector<Step> steps;
    steps.reserve(first_.size() - 1);
    std::vector<char> seen(first_.size() - 1, 0);
    for (Node start = 0; start < seen.size(); ++start) {
        if (seen[start] != 0) continue;
        seen[start] = 1;
        std::size_t next = steps.size();
        steps.push_back({start, start});
        for (; next < steps.size(); ++next) {
            const Node node = steps[next].node;
            for (std::size_t at = first_[node]; at < first_[node + 1]; ++at) {
                const Neighbour& neighbour = neighbours_[at];
                if (conducts[neighbour.edge] == 0 || seen[neighbour.node] != 0) continue;
                seen[neighbour.node] = 1;
                steps.push_back({neighbour.node, node, neighbour.edge});
            }
        }
    }
    return steps;
}

}  // namespace halfsplit::electrics
