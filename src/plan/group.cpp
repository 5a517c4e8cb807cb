#include "plan/group.hpp"

#include "halfsplit/plan/exact.hpp"

#include "plan/tree_order.hpp"

#include <algorithm>
#include <bit>
#include <limits>
#include <utility>

namespace halfsplit::plan {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

const access::Site& site_of(const Model& model, const Member& member) {
    return model.bare[member.element].site;
}

// Fills in what an order costs.
Order valued(const Model& model, const std::vector<Member>& sequence, access::Standing standing) {
    Order order;
    double left = 0;
    for (const Member& member : sequence) left += member.weight;
    for (const Member& member : sequence) {
        const access::Site& site = site_of(model, member);
        const double minutes = model.workshop.reach(site, standing.place, standing.off);
        order.minutes += left * minutes;
        order.worst += minutes;
        order.elements.push_back(member.element);
        standing = {site.place, standing.off | site.need};
        left -= member.weight;
    }
    order.least = order.minutes;
    return order;
}

// Every order, by recursion over (those left, the one laid bare last), each valued once.
class BestOrder {
  public:
    BestOrder(const Model& model, const std::vector<Member>& group, const access::Standing& standing)
        : model_(model),
          group_(group),
          standing_(standing),
          all_((1U << group.size()) - 1),
          value_((all_ + 1) * (group.size() + 1), -1),
          first_(value_.size()),
          before_(group.size(), 0) {
        for (std::size_t a = 0; a < group.size(); ++a)
            for (std::size_t b = 0; b < group.size(); ++b)
                if (a != b && plainly_before(a, b)) before_[b] |= 1U << a;
    }

    std::vector<Member> run() {
        value(all_, group_.size());
        std::vector<Member> sequence;
        std::size_t last = group_.size();
        for (unsigned left = all_; left != 0; left &= ~(1U << last)) {
            last = first_[slot(left, last)];
            sequence.push_back(group_[last]);
        }
        return sequence;
    }

  private:
    std::size_t slot(unsigned left, std::size_t last) const { return left * (group_.size() + 1) + last; }

    // At the same place behind the same covers: likelier and no longer to look at. Exchanging the two never
    // costs.
    bool plainly_before(std::size_t a, std::size_t b) const {
        if (model_.bare[group_[a].element].pocket != model_.bare[group_[b].element].pocket) return false;
        const double minutes_a = site_of(model_, group_[a]).minutes,
                     minutes_b = site_of(model_, group_[b]).minutes;
        if (group_[a].weight < group_[b].weight || minutes_a > minutes_b) return false;
        return group_[a].weight > group_[b].weight || minutes_a < minutes_b || a < b;
    }

    double value(unsigned left, std::size_t last) {
        if (left == 0) return 0;
        if (value_[slot(left, last)] >= 0) return value_[slot(left, last)];
        access::Standing now = standing_;
        double weight = 0;
        for (std::size_t i = 0; i < group_.size(); ++i) {
            if ((left >> i & 1U) != 0)
                weight += group_[i].weight;
            else
                now.off |= site_of(model_, group_[i]).need;
        }
        if (last < group_.size()) now.place = site_of(model_, group_[last]).place;
        double best = infinity;
        for (std::size_t next = 0; next < group_.size(); ++next) {
            if ((left >> next & 1U) == 0 || (left & before_[next]) != 0) continue;
            const double minutes =
                weight * model_.workshop.reach(site_of(model_, group_[next]), now.place, now.off) +
                value(left & ~(1U << next), next);
            if (minutes >= best) continue;
            best = minutes;
            first_[slot(left, last)] = next;
        }
        return value_[slot(left, last)] = best;
    }

    const Model& model_;
    const std::vector<Member>& group_;
    access::Standing standing_;
    unsigned all_;
    std::vector<double> value_;
    std::vector<std::size_t> first_;
    std::vector<unsigned> before_;
};

struct Block {
    double worth = -1;  // probability per minute
    std::uint32_t pocket = 0;
    std::size_t members = 0;
};

// The best first part of one pocket's members, which come in order of probability per minute of looking.
Block best_block(const Model& model, const std::vector<Member>& pocketed, const access::Standing& standing) {
    Block best{-1, model.bare[pocketed.front().element].pocket, 0};
    const Pocket& pocket = model.pockets[best.pocket];
    double minutes =
        model.workshop.travel(standing.place, pocket.place) + model.workshop.open(pocket.need, standing.off);
    double weight = 0;
    for (std::size_t i = 0; i < pocketed.size(); ++i) {
        minutes += site_of(model, pocketed[i]).minutes;
        weight += pocketed[i].weight;
        const double worth = minutes > 0 ? weight / minutes : infinity;
        if (worth > best.worth || minutes == 0) best = {worth, best.pocket, i + 1};
    }
    return best;
}

// Again and again the pocket, and as many of its members, with the most probability per minute.
std::vector<Member> by_probability_per_minute(const Model& model, const std::vector<Member>& group,
                                              access::Standing standing) {
    std::vector<std::vector<Member>> pockets(model.pockets.size());
    for (const Member& member : group) pockets[model.bare[member.element].pocket].push_back(member);
    for (auto& pocketed : pockets)
        std::stable_sort(pocketed.begin(), pocketed.end(), [&](const Member& a, const Member& b) {
            return a.weight * site_of(model, b).minutes > b.weight * site_of(model, a).minutes;
        });
    std::vector<Member> sequence;
    while (sequence.size() < group.size()) {
        Block best;
        for (const auto& pocketed : pockets) {
            if (pocketed.empty()) continue;
            const Block block = best_block(model, pocketed, standing);
            if (block.worth > best.worth) best = block;
        }
        auto& pocketed = pockets[best.pocket];
        const auto end = pocketed.begin() + static_cast<std::ptrdiff_t>(best.members);
        sequence.insert(sequence.end(), pocketed.begin(), end);
        pocketed.erase(pocketed.begin(), end);
        standing = {model.pockets[best.pocket].place, standing.off | model.pockets[best.pocket].need};
    }
    return sequence;
}

// A large group as jobs for best_tree_order: places to walk to, covers to take off and elements to look at,
// each once what it waits for is done. It errs low: walking to a place is counted once and from the nearest
// other place, and a job waits for one other at most.
class GroupJobs {
  public:
    GroupJobs(const Model& model, const std::vector<Member>& group, const access::Standing& standing)
        : model_(model),
          group_(group),
          standing_(standing),
          place_job_(model.workshop.places(), Job::no_job),
          cover_job_(access::most_covers, Job::no_job) {
        for (const Member& member : group) add_place(site_of(model, member).place);
        add_covers();
        first_member_ = jobs_.size();
        for (const Member& member : group) {
            const access::Site& site = site_of(model, member);
            const std::size_t cover = deepest(site.need & ~standing.off);
            jobs_.push_back(
                {member.weight, site.minutes, cover == Job::no_job ? place_job_[site.place] : cover});
        }
    }

    JobOrder order() const { return best_tree_order(jobs_); }
    std::vector<Member> members(const JobOrder& order) const {
        std::vector<Member> result;
        for (const std::size_t job : order.jobs)
            if (job >= first_member_) result.push_back(group_[job - first_member_]);
        return result;
    }

  private:
    void add_place(std::size_t place) {
        if (place == standing_.place || place_job_[place] != Job::no_job) return;
        double walk = infinity;
        for (std::size_t from = 0; from < place_job_.size(); ++from)
            if (from != place) walk = std::min(walk, model_.way(from, place));
        place_job_[place] = jobs_.size();
        jobs_.push_back({0, walk});
    }

    // Outer covers first. One needed at a single place waits for the walk there unless it waits for another
    // cover.
    void add_covers() {
        access::CoverSet wanted = 0;
        for (const Member& member : group_) wanted |= site_of(model_, member).need & ~standing_.off;
        std::vector<std::size_t> covers;
        for (access::CoverSet rest = wanted; rest != 0; rest &= rest - 1)
            covers.push_back(static_cast<std::size_t>(std::countr_zero(rest)));
        std::stable_sort(covers.begin(), covers.end(),
                         [&](std::size_t a, std::size_t b) { return depth(a) < depth(b); });
        for (const std::size_t cover : covers) {
            const access::CoverSet own = access::CoverSet{1} << cover;
            std::size_t after = deepest(model_.workshop.closure(own) & ~own & ~standing_.off);
            if (after == Job::no_job) after = only_place(own);
            cover_job_[cover] = jobs_.size();
            jobs_.push_back({0, model_.workshop.open(own, 0), after});
        }
    }

    int depth(std::size_t cover) const {
        return std::popcount(model_.workshop.closure(access::CoverSet{1} << cover));
    }

    // The job of the innermost of these covers.
    std::size_t deepest(access::CoverSet covers) const {
        std::size_t best = Job::no_job;
        int best_depth = 0;
        for (access::CoverSet rest = covers; rest != 0; rest &= rest - 1) {
            const auto cover = static_cast<std::size_t>(std::countr_zero(rest));
            if (depth(cover) <= best_depth) continue;
            best = cover_job_[cover];
            best_depth = depth(cover);
        }
        return best;
    }

    std::size_t only_place(access::CoverSet cover) const {
        std::size_t place = model_.workshop.places();
        for (const Member& member : group_) {
            const access::Site& site = site_of(model_, member);
            if ((site.need & cover) == 0 || site.place == place) continue;
            if (place != model_.workshop.places()) return Job::no_job;
            place = site.place;
        }
        return place_job_[place];
    }

    const Model& model_;
    const std::vector<Member>& group_;
    access::Standing standing_;
    std::vector<std::size_t> place_job_, cover_job_;
    std::vector<Job> jobs_;
    std::size_t first_member_ = 0;
};

}  // namespace

double quick_bound_of_laying_bare(const Model& model, const std::vector<Member>& group,
                                  const access::Standing& standing) {
    double minutes = 0;
    std::vector<Member> looks = group;
    for (const Member& member : group) {
        const access::Site& site = site_of(model, member);
        minutes += member.weight *
                   (model.way(standing.place, site.place) + model.workshop.open(site.need, standing.off));
    }
    std::sort(looks.begin(), looks.end(), [&](const Member& a, const Member& b) {
        return a.weight * site_of(model, b).minutes > b.weight * site_of(model, a).minutes;
    });
    double time = 0;
    for (const Member& member : looks) minutes += member.weight * (time += site_of(model, member).minutes);
    return minutes;
}

double bound_of_laying_bare(const Model& model, const std::vector<Member>& group,
                            const access::Standing& standing) {
    return GroupJobs(model, group, standing).order().sum;
}

Order order_to_lay_bare(const Model& model, const std::vector<Member>& group,
                        const access::Standing& standing) {
    if (group.size() <= exact_group) return valued(model, BestOrder(model, group, standing).run(), standing);
    const GroupJobs jobs(model, group, standing);
    const JobOrder best = jobs.order();
    Order order = valued(model, by_probability_per_minute(model, group, standing), standing);
    Order other = valued(model, jobs.members(best), standing);
    if (other.minutes < order.minutes) order = std::move(other);
    const double least = std::max(best.sum, quick_bound_of_laying_bare(model, group, standing));
    if (least < order.minutes * (1 - 1e-12)) order.least = least;
    return order;
}

}  // namespace halfsplit::plan
