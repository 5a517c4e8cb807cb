// How likely suspect sets are under one belief, and what follows from it for bounds.
#pragma once

#include "plan/group.hpp"
#include "plan/suspect_sets.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace halfsplit::plan {

// Minutes are weighted: times the weight of the suspects they count for.
struct SetWeight {
    double weight = 0;        // 0 while not worked out
    double look_minutes = 0;  // of the looks that find what is wrong
    double least_minutes =
        0;            // at most what telling the suspects apart costs in minutes at the sites beside that
    Stretch pockets;  // where its elements are, with the weight there
};

struct WeighedPocket {
    std::uint32_t pocket = 0;
    double weight = 0;
};

class Weights {
  public:
    // `of_suspect`: above 0, by suspect of the model.
    Weights(const Model& model, const SuspectSets& sets, std::vector<double> of_suspect);

    double of_suspect(std::size_t suspect) const { return of_suspect_[suspect]; }
    // Of the members of the set that are in the mask.
    double inside(SetId set, std::span<const Word> mask) const {
        double weight = 0;
        sets_.for_each_common(set, mask, [&](std::size_t s) { weight += of_suspect_[s]; });
        return weight;
    }
    // References and spans hold until another set is asked about.
    const SetWeight& of(SetId set) {
        if (set >= known_.size()) known_.resize(sets_.size());
        if (known_[set].weight == 0) weigh(set);
        return known_[set];
    }
    std::span<const WeighedPocket> pockets(const SetWeight& of) const {
        return {pockets_.data() + of.pockets.first, of.pockets.count};
    }
    // The elements of a set with their weights, in order.
    std::vector<Member> members(SetId set) const;

  private:
    void weigh(SetId set);
    void end_family(std::uint32_t family, SetWeight& result);

    const Model& model_;
    const SuspectSets& sets_;
    std::vector<double> of_suspect_;
    std::vector<SetWeight> known_;
    std::vector<WeighedPocket> pockets_;
    std::vector<double> pocket_weight_, family_weights_, merged_;  // scratch, left as found
};

}  // namespace halfsplit::plan
