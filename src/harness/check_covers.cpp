// Covers that lie under one another, and more of them than a plan can hold.
#include "halfsplit/base/text.hpp"

#include "harness/reading.hpp"

#include <algorithm>
#include <set>

namespace halfsplit::harness {

namespace {

constexpr std::size_t most_covers = 64;  // a plan keeps the set of covers that are off in 64 bits

void say_cycle(const std::vector<Index>& way, Reading& reading) {
    std::vector<std::string> names;
    for (const Index cover : way) names.push_back(reading.harness.covers[cover].id);
    names.push_back(names.front());
    reading.findings.error("cover-cycle", "/covers/" + std::to_string(way.front()) + "/under",
                           {"covers lie under one another: " + join(names, ", under "),
                            "an order in which they come off", "", "delete the \"under\" that is not so"});
}

// Depth-first without recursion. A cover met again while it is still on the way closes a cycle.
class CycleSearch {
  public:
    explicit CycleSearch(Reading& reading)
        : reading_(reading), state_(reading.harness.covers.size(), State::New) {}

    void from(Index start) {
        if (state_[start] != State::New) return;
        step_into(start);
        while (!way_.empty()) {
            const Index here = way_.back();
            const std::vector<Index>& under = reading_.harness.covers[here].under;
            if (next_.back() == under.size()) {
                state_[here] = State::Done;
                way_.pop_back();
                next_.pop_back();
                continue;
            }
            const Index over = under[next_.back()++];
            if (state_[over] == State::New) {
                step_into(over);
            } else if (state_[over] == State::OnTheWay) {
                say_cycle({std::find(way_.begin(), way_.end(), over), way_.end()}, reading_);
            }
        }
    }

  private:
    enum class State { New, OnTheWay, Done };

    void step_into(Index cover) {
        state_[cover] = State::OnTheWay;
        way_.push_back(cover);
        next_.push_back(0);
    }

    Reading& reading_;
    std::vector<State> state_;
    std::vector<Index> way_;
    std::vector<std::size_t> next_;
};

void add_access(const Access& access, std::set<Index>& wanted) {
    wanted.insert(access.covers.begin(), access.covers.end());
}

// By network: the covers that its parts name.
std::vector<std::set<Index>> named_covers(const Harness& harness) {
    std::vector<std::set<Index>> named(harness.networks.size());
    const auto add = [&](Index network, const Access& access) {
        if (network != none) add_access(access, named[network]);
    };
    for (const Part& part : harness.parts) {
        add(part.network, part.access);
        for (const Attachment& attachment : part.attachments) add(attachment.network, part.access);
    }
    for (Index point = 0; point < harness.points.size(); ++point) {
        const Point& it = harness.points[point];
        add(it.network, harness.parts[it.part].access);
        add(it.network, access_of(harness, it.terminal[0]));
    }
    return named;
}

// The covers and all that lie over them; stops counting just above the limit.
std::size_t closure_size(const Harness& harness, const std::set<Index>& named) {
    std::set<Index> all = named;
    std::vector<Index> open(named.begin(), named.end());
    while (!open.empty() && all.size() <= most_covers) {
        const Index cover = open.back();
        open.pop_back();
        for (const Index over : harness.covers[cover].under) {
            if (all.insert(over).second) open.push_back(over);
        }
    }
    return all.size();
}

}  // namespace

void check_covers(Reading& reading) {
    CycleSearch search(reading);
    for (Index cover = 0; cover < reading.harness.covers.size(); ++cover) search.from(cover);
    const auto named = named_covers(reading.harness);
    for (Index network = 0; network < named.size(); ++network) {
        if (closure_size(reading.harness, named[network]) <= most_covers) continue;
        reading.findings.error(
            "too-many-covers", "/networks/" + std::to_string(network),
            {"more than " + std::to_string(most_covers) + " covers stand before parts of " +
                 reading.harness.networks[network].id,
             "at most " + std::to_string(most_covers), "", "state as one cover what comes off together"});
    }
}

}  // namespace halfsplit::harness
