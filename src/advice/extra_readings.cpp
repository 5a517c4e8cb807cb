#include "advice/extra_test.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

namespace halfsplit::advice {

using access::CoverSet;
using access::Site;
using diagnosis::at;
using diagnosis::Contact;
using diagnosis::Tips;
using harness::Harness;
using harness::Index;
using harness::none;
using harness::PartKind;

namespace {

// Minutes of going from place to place; covers stay off until the end.
class Walk {
  public:
    Walk(const access::Workshop& workshop, std::size_t start) : workshop_(workshop), place_(start) {}

    void to(const Site& site) {
        minutes_ += workshop_.reach(site, place_, off_);
        place_ = site.place;
        off_ |= site.need;
    }
    double minutes() const { return minutes_; }

  private:
    const access::Workshop& workshop_;
    std::size_t place_;
    CoverSet off_ = 0;
    double minutes_ = 0;
};

class Collection {
  public:
    Collection(diagnosis::Predictor& predictor, const access::Costs& costs, Index clip)
        : harness_(predictor.harness()), predictor_(predictor), costs_(costs), clip_(clip) {
        for (Index point = 0; point < harness_.points.size(); ++point) {
            if (harness_.points[point].network == predictor.network()) points_.push_back(point);
        }
    }

    std::vector<ExtraReading> run() {
        for (const Index point : points_) {
            if (point != clip_) add_at_point(point);
        }
        for (const auto& [from, to] : across_parts()) add_continuity(from, to);
        for (Index part = 0; part < harness_.parts.size(); ++part) {
            if (comes_apart(part)) add_apart(part);
        }
        std::stable_sort(result_.begin(), result_.end(),
                         [](const ExtraReading& a, const ExtraReading& b) { return a.minutes < b.minutes; });
        return std::move(result_);
    }

  private:
    Walk walk() const { return {costs_.workshop(), harness_.start}; }

    // H to L where there are two, and each line to ground and to supply, at one point.
    std::vector<Tips> whole_bus(Index point) const {
        const std::vector<Index> terminals = terminals_of(harness_.points[point]);
        std::vector<Tips> result;
        if (terminals.size() == 2) result.push_back({at(terminals[0]), at(terminals[1])});
        for (const auto kind : {Contact::Kind::Ground, Contact::Kind::Supply}) {
            for (const Index terminal : terminals) result.push_back({at(terminal), {kind, none}});
        }
        return result;
    }

    void add_at_point(Index point) {
        Walk there = walk();
        there.to(costs_.probe(harness_.points[point].terminal[0]));
        for (const Tips& tips : whole_bus(point)) {
            // H to L with everything mated is a plain reading.
            if (tips.black.kind != Contact::Kind::Terminal)
                result_.push_back({none, tips, false, there.minutes()});
        }
    }

    // The two ends of a run, both halves of a connector, in and out of a module or plug.
    std::set<std::pair<Index, Index>> across_parts() const {
        std::set<std::pair<Index, Index>> result;
        const auto join = [&](Index one, Index other) {
            if (one != other && one != clip_ && other != clip_) result.insert(std::minmax(one, other));
        };
        std::map<Index, Index> point_of;  // by terminal of line H
        std::map<Index, std::vector<Index>> of_part;
        for (const Index point : points_) {
            point_of.emplace(harness_.points[point].terminal[0], point);
            of_part[harness_.points[point].part].push_back(point);
        }
        for (const auto& [part, own] : of_part) {
            for (const Index one : own) {
                for (const Index other : own) join(one, other);
            }
        }
        for (const harness::Part& run : harness_.parts) {
            if (!run.strand[0]) continue;
            const auto from = point_of.find(run.strand[0]->from);
            const auto to = point_of.find(run.strand[0]->to);
            if (from != point_of.end() && to != point_of.end()) join(from->second, to->second);
        }
        return result;
    }

    // The clip is moved to one of the two, whichever way round takes less.
    void add_continuity(Index one, Index other) {
        const auto minutes = [&](Index clipped, Index probed) {
            Walk there = walk();
            there.to(costs_.clip(clipped));
            there.to(costs_.probe(harness_.points[probed].terminal[0]));
            return there.minutes();
        };
        const bool turn = minutes(other, one) < minutes(one, other);
        const Index clipped = turn ? other : one;
        const Index probed = turn ? one : other;
        for (std::size_t line = 0; line < 2; ++line) {
            result_.push_back(
                {none,
                 {at(harness_.points[probed].terminal[line]), at(harness_.points[clipped].terminal[line])},
                 true,
                 minutes(clipped, probed)});
        }
    }

    // What can be unplugged, and is on the vehicle for certain.
    bool comes_apart(Index part) const {
        const PartKind kind = harness_.parts[part].kind;
        if (kind == PartKind::Run || kind == PartKind::Splice || kind == PartKind::Socket) return false;
        for (std::size_t variant = 0; variant < predictor_.variants().size(); ++variant) {
            if (predictor_.variants()[variant].present[part] == 0) return false;
            if (predictor_.circuit(variant).assembly.edges_of_part[part].empty()) return false;
        }
        return true;
    }

    // Points that lie open when the part is apart: its own, or those where a plug sits.
    std::vector<Index> laid_open(Index part) const {
        std::vector<Index> result;
        const harness::Part& own = harness_.parts[part];
        for (const Index point : points_) {
            const auto& terminal = harness_.points[point].terminal;
            const bool plugged = own.kind == PartKind::BridgePlug &&
                                 (terminal == own.in.terminal || terminal == own.out.terminal);
            if (harness_.points[point].part == part || plugged) result.push_back(point);
        }
        return result;
    }

    void add_apart(Index part) {
        Site unmate = costs_.look(part);
        unmate.minutes = harness_.assumptions.unmate_minutes;
        Site remate = unmate;
        remate.minutes = harness_.assumptions.remate_minutes;
        std::vector<Index> points = laid_open(part);
        if (std::find(points.begin(), points.end(), clip_) == points.end()) points.push_back(clip_);
        for (const Index point : points) {
            Walk there = walk();
            there.to(unmate);
            there.to(costs_.probe(harness_.points[point].terminal[0]));
            there.to(remate);
            for (const Tips& tips : whole_bus(point)) result_.push_back({part, tips, false, there.minutes()});
            if (point == clip_) continue;
            const std::vector<Index> probed = terminals_of(harness_.points[point]);
            const std::vector<Index> clipped = terminals_of(harness_.points[clip_]);
            for (std::size_t line = 0; line < probed.size(); ++line) {
                result_.push_back({part, {at(probed[line]), at(clipped[line])}, false, there.minutes()});
            }
        }
    }

    const Harness& harness_;
    diagnosis::Predictor& predictor_;
    const access::Costs& costs_;
    Index clip_;
    std::vector<Index> points_;
    std::vector<ExtraReading> result_;
};

}  // namespace

std::vector<ExtraReading> extra_readings(diagnosis::Predictor& predictor, const access::Costs& costs,
                                         Index clip) {
    return Collection(predictor, costs, clip).run();
}

}  // namespace halfsplit::advice
