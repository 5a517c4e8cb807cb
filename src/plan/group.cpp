#include "plan/group.hpp"

#include "halfsplit/plan/exact.hpp"

#include <algorithm>
#include <bit>
#include <limits>
#include <numeric>

namespace halfsplit::plan {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

const access::Site& site_of(const Model& model, const Member& member) { return model.bare[member.element].site; }

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
        : model_(model), group_(group), standing_(standing), all_((1U << group.size()) - 1),
          value_((all_ + 1) * (group.size() + 1), -1), first_(value_.size()), before_(group.size(), 0) {
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

    // At the same place behind the same covers: likelier and no longer to look at. Exchanging the two never costs.
    bool plainly_before(std::size_t a, std::size_t b) const {
        if (model_.bare[group_[a].element].pocket != model_.bare[group_[b].element].pocket) return false;
        const double minutes_a = site_of(model_, group_[a]).minutes, minutes_b = site_of(model_, group_[b]).minutes;
        if (group_[a].weight < group_[b].weight || minutes_a > minutes_b) return false;
        return group_[a].weight > group_[b].weight || minutes_a < minutes_b || a < b;
    }

    double value(unsigned left, std::size_t last) {
        if (left == 0) return 0;
        if (value_[slot(left, last)] >= 0) return value_[slot(left, last)];
        access::Standing now = standing_;
        double weight = 0;
        for (std::size_t i = 0; i < group_.size(); ++i) {
            if ((left >> i & 1U) != 0) weight += group_[i].weight;
            else now.off |= site_of(model_, group_[i]).need;
        }
        if (last < group_.size()) now.place = site_of(model_, group_[last]).place;
        double best = infinity;
        for (std::size_t next = 0; next < group_.size(); ++next) {
            if ((left >> next & 1U) == 0 || (left & before_[next]) != 0) continue;
            const double minutes = weight * model_.workshop.reach(site_of(model_, group_[next]), now.place, now.off) +
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
    const Pocket& pocket = model.pockets[model.bare[pocketed.front().element].pocket];
    double minutes = model.workshop.travel(standing.place, pocket.place) + model.workshop.open(pocket.need, standing.off);
    Block best{-1, model.bare[pocketed.front().element].pocket, 0};
    double weight = 0;
    for (std::size_t i = 0; i < pocketed.size(); ++i) {
        minutes += site_of(model, pocketed[i]).minutes;
        weight += pocketed[i].weight;
        const double worth = minutes > 0 ? weight / minutes : infinity;
        if (worth > best.worth || (worth == infinity && best.worth == infinity))
            best = {worth, best.pocket, i + 1};
    }
    return best;
}

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

struct Job {
    double weight = 0, minutes = 0;
};

// Least weighted sum of finishing times (Smith 1956): by weight per minute.
double least_finishing(std::vector<Job> jobs) {
    std::sort(jobs.begin(), jobs.end(),
              [](const Job& a, const Job& b) { return a.weight * b.minutes > b.weight * a.minutes; });
    double time = 0, sum = 0;
    for (const Job& job : jobs) sum += job.weight * (time += job.minutes);
    return sum;
}

}  // namespace

double least_minutes_to_lay_bare(const Model& model, const std::vector<Member>& group,
                                 const access::Standing& standing) {
    // Each cover's minutes shared out among the members behind it, by weight.
    std::vector<double> weight_behind(access::most_covers, 0.0);
    const auto each_cover = [&](const Member& member, auto act) {
        for (access::CoverSet rest = site_of(model, member).need & ~standing.off; rest != 0; rest &= rest - 1)
            act(static_cast<std::size_t>(std::countr_zero(rest)));
    };
    for (const Member& member : group) each_cover(member, [&](std::size_t c) { weight_behind[c] += member.weight; });
    std::vector<Job> looks, shared;
    double own = 0, travel = 0;
    for (const Member& member : group) {
        const access::Site& site = site_of(model, member);
        own += member.weight * model.workshop.open(site.need, standing.off);
        travel += member.weight * model.way(standing.place, site.place);
        looks.push_back({member.weight, site.minutes});
        double minutes = site.minutes;
        each_cover(member, [&](std::size_t c) {
            minutes += model.workshop.open(access::CoverSet{1} << c, 0) * member.weight / weight_behind[c];
        });
        shared.push_back({member.weight, minutes});
    }
    return travel + std::max(own + least_finishing(std::move(looks)), least_finishing(std::move(shared)));
}

Order order_to_lay_bare(const Model& model, const std::vector<Member>& group, const access::Standing& standing) {
    if (group.size() <= exact_group) return valued(model, BestOrder(model, group, standing).run(), standing);
    Order order = valued(model, by_probability_per_minute(model, group, standing), standing);
    const double least = least_minutes_to_lay_bare(model, group, standing);
    if (least < order.minutes * (1 - 1e-12)) order.least = least;
    return order;
}

}  // namespace halfsplit::plan
