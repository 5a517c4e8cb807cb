#include "plan/rollout.hpp"

#include <algorithm>

namespace halfsplit::plan {

using access::Standing;

Choice Rollout::follow(SetId set, const Standing& standing) {
    std::vector<Beginning> all = choices(set, standing);
    if (all.empty()) return {};
    const Beginning first = pick(set, standing, std::move(all));
    return desk_.as_choice(set, standing, first, follow_with(set, standing, first));
}

std::vector<Beginning> Rollout::choices(SetId set, const Standing& standing) {
    std::vector<Beginning> result = desk_.beginnings(set, standing);
    if (!desk_.may_lay_bare(set) || (!result.empty() && result.back().lays_group_bare())) return result;
    Beginning group;
    group.lay_bare = true;
    result.push_back(std::move(group));
    return result;
}

// Of choices that tie the first: tests before looks, looks before the group.
Beginning Rollout::pick(SetId set, const Standing& standing, std::vector<Beginning> choices) {
    const double tie = tie_minutes * desk_.weight(set);
    Beginning* best = &choices.front();
    double least = Search::infinity;
    for (Beginning& choice : choices) {
        const double minutes = desk_.best_known(set, standing, choice, RulePlan::Stopping::Never).minutes;
        if (minutes >= least - tie) continue;
        least = minutes;
        best = &choice;
    }
    return std::move(*best);
}

Plan Rollout::follow_with(SetId set, const Standing& standing, const Beginning& first) {
    if (first.lays_group_bare()) return desk_.best_known(set, standing, first);
    const access::Site& site = desk_.site_of(first);
    const Standing then{site.place, standing.off | site.need};
    Plan whole{first.now, 0};
    for (const SetId left : first.left) {
        const Plan after = rest(left, then);
        whole.minutes += after.minutes;
        whole.worst = std::max(whole.worst, after.worst);
    }
    whole.worst += desk_.model().workshop.reach(site, standing.place, standing.off);
    return whole;
}

Plan Rollout::rest(SetId set, const Standing& standing) {
    std::vector<Beginning> all = choices(set, standing);
    if (all.empty()) return {};
    return follow_with(set, standing, pick(set, standing, std::move(all)));
}

}  // namespace halfsplit::plan
