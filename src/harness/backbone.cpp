#include "harness/backbone.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace halfsplit::harness {

Backbone::Backbone(const std::vector<Link>& links, const std::vector<Index>& ends) {
    std::set<std::pair<Index, Index>> seen;  // a module and the plug in its place are one way, not a ring
    for (const Link& link : links) {
        if (link.from == link.to || !seen.insert(std::minmax(link.from, link.to)).second) continue;
        nodes_[link.from].links.push_back(links_.size());
        nodes_[link.to].links.push_back(links_.size());
        links_.push_back(link);
    }
    for (const Index end : ends) nodes_[end].end = true;
    take_off_branches();
    measure_core();
    measure_branches();
}

Index Backbone::across(std::size_t link, Index node) const {
    return links_[link].from == node ? links_[link].to : links_[link].from;
}

// What ends without a terminator is no backbone; taken off from the tips inwards.
void Backbone::take_off_branches() {
    std::vector<Index> tips;
    for (auto& [terminal, node] : nodes_) {
        node.degree = node.links.size();
        if (node.degree <= 1 && !node.end) tips.push_back(terminal);
    }
    while (!tips.empty()) {
        const Index tip = tips.back();
        tips.pop_back();
        nodes_[tip].off = true;
        for (const std::size_t link : nodes_[tip].links) {
            const Index next = across(link, tip);
            Node& node = nodes_[next];
            if (node.off) continue;
            if (--node.degree <= 1 && !node.end) tips.push_back(next);
        }
    }
}

void Backbone::measure_core() {
    std::size_t nodes = 0;
    for (const auto& entry : nodes_) nodes += entry.second.off ? 0 : 1;
    for (const Link& link : links_) {
        if (nodes_[link.from].off || nodes_[link.to].off) continue;
        ++length_links_;
        length_m_ += link.length_m;
    }
    ring_ = nodes > 0 && length_links_ >= nodes;
}

void Backbone::measure_branches() {
    if (!exists()) return;
    std::vector<Index> front;
    for (const auto& [terminal, node] : nodes_) {
        if (!node.off) front.push_back(terminal);
    }
    while (!front.empty()) {
        const Index here = front.back();
        front.pop_back();
        for (const std::size_t link : nodes_[here].links) {
            const Index next = across(link, here);
            Node& node = nodes_[next];
            if (!node.off) continue;
            node.off = false;  // reached; each branch is a tree, so there is one way only
            node.distance_m = nodes_[here].distance_m + links_[link].length_m;
            stubs_m_ += links_[link].length_m;
            front.push_back(next);
        }
    }
}

double Backbone::distance_m(Index terminal) const {
    const auto found = nodes_.find(terminal);
    return found == nodes_.end() ? 0 : found->second.distance_m;
}

}  // namespace halfsplit::harness
