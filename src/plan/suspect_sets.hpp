// Suspect sets, each kept once, with everything about a set that does not depend on where one stands or what is open.
#pragma once

#include "plan/index_table.hpp"
#include "plan/model.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace halfsplit::plan {

using SetId = std::uint32_t;

// A stretch of one of the lists that all sets share.
struct Stretch {
    std::uint32_t first = 0, count = 0;
};

struct Facts {
    double weight = 0;
    double look_minutes = 0;    // of the look that ends the hunt, weighted
    double least_minutes = 0;   // at most what telling the suspects apart costs in minutes at the sites, weighted
    access::CoverSet wanted = 0;  // covers over any test that splits the set, or any of its elements
    std::uint32_t elements = 0;
    std::uint32_t families = 0;
    Stretch pockets;            // where its elements are, with the weight there
    Stretch tests;              // that split it
};

struct WeighedPocket {
    std::uint32_t pocket = 0;
    double weight = 0;
};

// A test that splits a set, and what it leaves: nothing while that has not been asked for.
struct Split {
    std::uint32_t test = 0;
    Stretch children;
    bool superfluous = false;  // another leaves the same and is never dearer, neither now nor later
};

class SuspectSets {
  public:
    explicit SuspectSets(const Model& model);

    SetId all();
    // The set with these bits, which must not be empty. `larger`: a set that holds it, if one is at hand; a test that
    // does not split that need not be tried.
    SetId intern(std::span<const Word> bits, SetId larger = IndexTable::none);
    // The members of `set` that are not of `element`, which must leave some.
    SetId without(SetId set, std::uint32_t element);

    // References and spans hold until the next call that may keep a new set.
    const Facts& facts(SetId set) const { return facts_[set]; }
    std::span<const Word> bits(SetId set) const { return {bits_.data() + set * model_.words, model_.words}; }
    std::span<const WeighedPocket> pockets(SetId set) const {
        return {pockets_.data() + facts_[set].pockets.first, facts_[set].pockets.count};
    }
    std::span<const std::uint32_t> tests(SetId set) const {
        return {tests_.data() + facts_[set].tests.first, facts_[set].tests.count};
    }
    // The place that stands for `place` as far as this set is concerned.
    std::size_t place_for(SetId set, std::size_t place) const { return place_for_[set * model_.workshop.places() + place]; }

    // One for each test that splits the set.
    Stretch splits(SetId set);
    // With what it leaves. Superfluous when a split worked out before, at the same place, leaves the same, needs no
    // other covers and takes no longer.
    Split work_out(SetId set, std::uint32_t index);
    const Split& split(std::uint32_t index) const { return splits_[index]; }
    SetId child(std::uint32_t index) const { return children_[index]; }
    // What a test leaves of a set, outcome by outcome.
    std::vector<SetId> after(SetId set, const PlannedTest& test);
    // The set family by family.
    Stretch parts(SetId set);
    SetId part(std::uint32_t index) const { return parts_[index]; }

    template <typename Do>
    void for_each(SetId set, Do act) const {
        for (std::size_t w = 0; w < model_.words; ++w)
            for (Word rest = bits_[set * model_.words + w]; rest != 0; rest &= rest - 1)
                act(w * word_bits + static_cast<std::size_t>(std::countr_zero(rest)));
    }

  private:
    void learn(SetId set, SetId larger);
    void weigh(SetId set, Facts& facts);
    void find_tests(SetId set, SetId larger, Facts& facts);
    bool splits_set(const PlannedTest& test, SetId set, std::size_t member) const;
    void map_places(const Facts& facts);
    bool superfluous(const Split& split, const Stretch& among) const;

    const Model& model_;
    IndexTable table_;
    std::vector<Word> bits_;
    std::vector<Facts> facts_;
    std::vector<std::uint32_t> place_for_;
    std::vector<WeighedPocket> pockets_;
    std::vector<std::uint32_t> tests_;
    std::vector<Stretch> splits_of_, parts_of_;
    std::vector<Split> splits_;
    std::vector<SetId> children_, parts_;
    // Scratch, left as found: zero weights and marks.
    std::vector<double> pocket_weight_, rising_, merged_;
    std::vector<std::uint32_t> element_mark_;
    std::uint32_t mark_ = 0;
};

}  // namespace halfsplit::plan
