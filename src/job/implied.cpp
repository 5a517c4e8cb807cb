#include "halfsplit/job/implied.hpp"

#include "halfsplit/job/state.hpp"

#include "resolve.hpp"

#include <algorithm>
#include <string>

namespace halfsplit::job {

namespace {

bool holds(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

void set(std::vector<std::string>& names, const std::string& name, bool present) {
    if (!present) {
        names.erase(std::remove(names.begin(), names.end(), name), names.end());
    } else if (!holds(names, name)) {
        names.push_back(name);
    }
}

// The covers that are off and the parts that are apart, if every record that counts is taken at its word.
class Expected {
  public:
    Expected(const harness::Harness& harness, const std::vector<Record>& records)
        : harness_(harness), records_(records) {
        for (const Resolved& resolved : resolve(records)) {
            if (!resolved.counts) continue;
            std::visit([this](const auto& body) { take(body); }, resolved.event->body);
        }
    }

    const std::vector<std::string>& covers_off() const { return covers_off_; }
    const std::vector<std::string>& apart() const { return apart_; }

  private:
    template <typename Other>
    void take(const Other&) {}

    void take(const Reading& reading) {
        if (reading.outcome == Outcome::CouldNotReach) return;
        reach_terminal(harness::find_terminal(harness_, reading.red));
        reach_terminal(harness::find_terminal(harness_, reading.black));
    }
    void take(const Distance& distance) {
        reach_point(distance.from);
        reach_point(distance.to);
    }
    void take(const Seen& seen) {
        if (seen.verdict != Verdict::CouldNotReach) reach_part(seen.part);
    }
    void take(const Repair& repair) {
        reach_part(repair.part);
        if (repair.action == RepairAction::Reseated || repair.action == RepairAction::BridgePlugFitted)
            set(apart_, repair.part, false);
    }
    void take(const ClipMoved& clip) { reach_point(clip.point); }
    void take(const CoverChange& change) { set(covers_off_, change.cover, change.off); }
    void take(const PlugChange& change) {
        if (!change.implied) reach_part(change.part);
        set(apart_, change.part, !change.plugged);
    }
    // Undoing an implied record by itself says that it was not so: the opposite, from here on.
    void take(const Undo& undo) {
        const auto target = position_of(records_, undo.target);
        if (!target || !is_implied(records_[*target].event)) return;
        const Body& body = records_[*target].event.body;
        if (const auto* cover = std::get_if<CoverChange>(&body)) set(covers_off_, cover->cover, !cover->off);
        if (const auto* plug = std::get_if<PlugChange>(&body)) set(apart_, plug->part, plug->plugged);
    }

    void reach_point(const std::string& name) {
        const harness::Index point = harness::find_point(harness_, name);
        if (point == harness::none) return;
        for (const harness::Index terminal : harness_.points[point].terminal) reach_terminal(terminal);
    }
    void reach_terminal(harness::Index terminal) {
        if (terminal != harness::none) take_off_all(harness::access_of(harness_, terminal).covers);
    }
    void reach_part(const std::string& id) {
        const harness::Index part = harness::find_part(harness_, id);
        if (part != harness::none) take_off_all(harness_.parts[part].access.covers);
    }
    void take_off_all(const std::vector<harness::Index>& covers) {
        for (const harness::Index cover : covers) take_off(cover, harness_.covers.size());
    }
    // Outermost first. `depth` bounds the walk even if the covers lay over each other in a ring.
    void take_off(harness::Index cover, std::size_t depth) {
        const harness::Cover& it = harness_.covers[cover];
        if (depth == 0 || holds(covers_off_, it.id)) return;
        for (const harness::Index over : it.under) take_off(over, depth - 1);
        set(covers_off_, it.id, true);
    }

    const harness::Harness& harness_;
    const std::vector<Record>& records_;
    std::vector<std::string> covers_off_, apart_;
};

}  // namespace

std::vector<Event> with_implied(Event event, const std::vector<Record>& records,
                                const harness::Harness& harness) {
    std::vector<Record> after = records;
    after.push_back({records.size() + 1, 0, event});
    const Expected expected(harness, after);
    const State state = replay(after);
    std::vector<Event> events{std::move(event)};
    for (const std::string& cover : expected.covers_off()) {
        if (!holds(state.covers_off, cover)) events.push_back({CoverChange{cover, true, true}, {}});
    }
    for (const std::string& part : state.apart) {
        if (!holds(expected.apart(), part)) events.push_back({PlugChange{part, true, true}, {}});
    }
    return events;
}

}  // namespace halfsplit::job
