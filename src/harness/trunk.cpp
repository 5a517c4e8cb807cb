#include "halfsplit/harness/trunk.hpp"

#include <algorithm>

namespace halfsplit::harness {

namespace {

class Walk {
  public:
    Walk(const Harness& harness, Index network, const std::vector<char>& present)
        : harness_(harness),
          present_(present),
          neighbours_(harness.parts.size()),
          parent_(harness.parts.size(), none) {
        stand_in_for_absent();
        for (Index run = 0; run < harness.parts.size(); ++run) {
            const Part& part = harness.parts[run];
            if (part.kind != PartKind::Run || part.network != network || present[run] == 0) continue;
            const auto& strand = part.strand[0] ? part.strand[0] : part.strand[1];
            if (!strand) continue;
            join(run, owner(strand->from));
            join(run, owner(strand->to));
        }
    }

    std::vector<TrunkItem> run() {
        const Index first = end_of_bus();
        if (first == none) return {};
        const std::vector<Index> order = breadth_first(first);
        mark_trunk(last_of(order));
        list(first, 0);
        return std::move(result_);
    }

  private:
    // A bridge plug takes the place of the absent module whose connector it sits in.
    void stand_in_for_absent() {
        plug_at_.assign(harness_.terminals.size(), none);
        for (Index plug = 0; plug < harness_.parts.size(); ++plug) {
            const Part& part = harness_.parts[plug];
            if (part.kind != PartKind::BridgePlug || present_[plug] == 0) continue;
            for (const Port& port : {part.in, part.out}) {
                for (const Index terminal : port.terminal) {
                    if (terminal != none) plug_at_[terminal] = plug;
                }
            }
        }
        for (Index terminal = 0; terminal < plug_at_.size(); ++terminal) {
            const Index plug = plug_at_[terminal];
            const Index part = harness_.terminals[terminal].part;
            if (plug != none && present_[part] != 0) join(plug, part);
        }
    }

    Index owner(Index terminal) const {
        const Index part = harness_.terminals[terminal].part;
        return present_[part] == 0 && plug_at_[terminal] != none ? plug_at_[terminal] : part;
    }

    void join(Index a, Index b) {
        if (a == b || std::find(neighbours_[a].begin(), neighbours_[a].end(), b) != neighbours_[a].end())
            return;
        neighbours_[a].push_back(b);
        neighbours_[b].push_back(a);
    }

    bool terminates(Index part) const {
        const Part& candidate = harness_.parts[part];
        if (candidate.kind == PartKind::Terminator) return true;
        return std::any_of(candidate.attachments.begin(), candidate.attachments.end(),
                           [](const Attachment& own) {
                               return own.terminator == Attachment::Terminator::BuiltIn ||
                                      own.terminator == Attachment::Terminator::SwitchedOn;
                           });
    }

    Index end_of_bus() const {
        Index any = none;
        for (Index part = 0; part < neighbours_.size(); ++part) {
            if (neighbours_[part].empty()) continue;
            if (any == none) any = part;
            if (terminates(part)) return part;
        }
        return any;
    }

    std::vector<Index> breadth_first(Index first) {
        std::vector<Index> order{first};
        parent_[first] = first;
        for (std::size_t at = 0; at < order.size(); ++at) {
            for (const Index next : neighbours_[order[at]]) {
                if (parent_[next] != none) continue;
                parent_[next] = order[at];
                order.push_back(next);
            }
        }
        return order;
    }

    // The other terminator, or failing that the part farthest off.
    Index last_of(const std::vector<Index>& order) const {
        for (auto part = order.rbegin(); part != order.rend(); ++part) {
            if (terminates(*part)) return *part;
        }
        return order.back();
    }

    void mark_trunk(Index last) {
        on_trunk_.assign(parent_.size(), 0);
        for (Index part = last; on_trunk_[part] == 0; part = parent_[part]) on_trunk_[part] = 1;
    }

    // Branches first, the way on last; without recursion, since a chain may be thousands long.
    void list(Index first, std::size_t depth) {
        std::vector<TrunkItem> waiting{{first, depth}};
        while (!waiting.empty()) {
            const TrunkItem item = waiting.back();
            waiting.pop_back();
            result_.push_back(item);
            std::vector<Index> children;
            for (const Index next : neighbours_[item.part]) {
                if (parent_[next] == item.part && next != first) children.push_back(next);
            }
            // Last in, first out: what goes on in line is pushed first, branches from the last to the first.
            std::stable_sort(children.begin(), children.end(),
                             [this](Index a, Index b) { return on_trunk_[a] > on_trunk_[b]; });
            const bool any_goes_on = !children.empty() && (on_trunk_[children[0]] != 0 || item.depth > 0);
            std::reverse(children.begin() + (any_goes_on ? 1 : 0), children.end());
            for (std::size_t i = 0; i < children.size(); ++i) {
                const bool goes_on = i == 0 && any_goes_on;
                waiting.push_back({children[i], goes_on ? item.depth : item.depth + 1});
            }
        }
    }

    const Harness& harness_;
    const std::vector<char>& present_;
    std::vector<std::vector<Index>> neighbours_;
    std::vector<Index> parent_;
    std::vector<Index> plug_at_;
    std::vector<char> on_trunk_;
    std::vector<TrunkItem> result_;
};

}  // namespace

std::vector<TrunkItem> trunk(const Harness& harness, Index network, const std::vector<char>& present) {
    return Walk(harness, network, present).run();
}

}  // namespace halfsplit::harness
