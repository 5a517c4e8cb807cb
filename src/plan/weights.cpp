#include "plan/weights.hpp"

#include "plan/huffman.hpp"

#include <algorithm>
#include <utility>

namespace halfsplit::plan {

Weights::Weights(const Model& model, const SuspectSets& sets, std::vector<double> of_suspect)
    : model_(model),
      sets_(sets),
      of_suspect_(std::move(of_suspect)),
      pocket_weight_(model.pockets.size(), 0.0) {}

void Weights::weigh(SetId set) {
    SetWeight result;
    std::uint32_t family = IndexTable::none;
    sets_.for_each(set, [&](std::size_t s) {
        const Suspect& suspect = model_.suspects[s];
        if (suspect.family != family) {
            end_family(family, result);
            family = suspect.family;
        }
        const double weight = of_suspect_[s];
        result.weight += weight;
        if (counts_for_length(model_, suspect)) family_weights_.push_back(weight);
        if (model_.isolating) return;
        const BareSite& bare = model_.bare[suspect.element];
        result.look_minutes += weight * bare.site.minutes;
        if (suspect.then != IndexTable::none)
            result.look_minutes += weight * model_.bare[model_.suspects[suspect.then].element].site.minutes;
        pocket_weight_[bare.pocket] += weight;
    });
    end_family(family, result);
    result.pockets.first = static_cast<std::uint32_t>(pockets_.size());
    for (std::uint32_t p = 0; p < pocket_weight_.size(); ++p) {
        if (pocket_weight_[p] == 0) continue;
        pockets_.push_back({p, pocket_weight_[p]});
        pocket_weight_[p] = 0;
    }
    result.pockets.count = static_cast<std::uint32_t>(pockets_.size()) - result.pockets.first;
    known_[set] = result;
}

// Suspects are numbered by rising weight within a family; a belief changed since may have upset that.
void Weights::end_family(std::uint32_t family, SetWeight& result) {
    if (family_weights_.size() > 1) {
        if (!std::is_sorted(family_weights_.begin(), family_weights_.end()))
            std::sort(family_weights_.begin(), family_weights_.end());
        result.least_minutes += least_steps(family_weights_, model_.family_outcomes[family],
                                            model_.step_minutes, !model_.isolating, merged_);
    }
    family_weights_.clear();
}

std::vector<Member> Weights::members(SetId set) const {
    std::vector<Member> group;
    std::vector<std::uint32_t> slot(model_.bare.size(), IndexTable::none);
    sets_.for_each(set, [&](std::size_t s) {
        const std::uint32_t element = model_.suspects[s].element;
        if (slot[element] == IndexTable::none) {
            slot[element] = static_cast<std::uint32_t>(group.size());
            group.push_back({element, 0});
        }
        group[slot[element]].weight += of_suspect_[s];
    });
    std::sort(group.begin(), group.end(),
              [](const Member& a, const Member& b) { return a.element < b.element; });
    return group;
}

}  // namespace halfsplit::plan
