// Suspect sets, each kept once, with everything about a set that depends neither on where one stands, nor on
// what is open, nor on how likely its members are.
#pragma once

#include "plan/index_table.hpp"
#include "plan/model.hpp"

#include <bit>
#include <cstdint>
#include <span>
#include <vector>

namespace halfsplit::plan {

using SetId = std::uint32_t;

// A stretch of one of the lists that all sets share.
struct Stretch {
    std::uint32_t first = 0, count = 0;
};

struct Shape {
    access::CoverSet wanted = 0;  // covers over any test that splits the set, or any of its elements
    std::uint32_t elements = 0;   // different ones
    bool goes_on = false;         // after a find, for some of its members; then every cover is wanted
    Stretch tests;                // that split it; none when there is one element and the hunt ends there
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

    // What may be true before anything was mended.
    SetId all();
    // The set with these bits, which must not be empty. `larger`: a set that holds it, if one is at hand; a
    // test that does not split that need not be tried.
    SetId intern(std::span<const Word> bits, SetId larger = IndexTable::none);
    // The members of the set that are in the mask; IndexTable::none when there are none.
    SetId within(SetId set, std::span<const Word> mask);
    // Of the set: what is left when this element is not it, and what is true when it was and mending it did
    // not cure. IndexTable::none where there is nothing.
    SetId without(SetId set, std::uint32_t element);
    SetId going_on(SetId set, std::uint32_t element);

    std::size_t size() const { return shapes_.size(); }
    // References and spans hold until the next call that may keep a new set.
    const Shape& shape(SetId set) const { return shapes_[set]; }
    std::span<const Word> bits(SetId set) const { return {bits_.data() + set * model_.words, model_.words}; }
    std::span<const std::uint32_t> tests(SetId set) const {
        return {tests_.data() + shapes_[set].tests.first, shapes_[set].tests.count};
    }
    // The place that stands for `place` as far as this set is concerned.
    std::size_t place_for(SetId set, std::size_t place) const {
        return place_for_[set * model_.workshop.places() + place];
    }

    // One for each test that splits the set.
    Stretch splits(SetId set);
    // With what it leaves. Superfluous when a split worked out before, at the same place, leaves the same,
    // needs no other covers and takes no longer.
    Split work_out(SetId set, std::uint32_t index);
    const Split& split(std::uint32_t index) const { return splits_[index]; }
    SetId child(std::uint32_t index) const { return children_[index]; }
    // What a test leaves of a set, outcome by outcome.
    std::vector<SetId> after(SetId set, const PlannedTest& test);

    // Of the members that are in the mask.
    template <typename Do>
    void for_each_common(SetId set, std::span<const Word> mask, Do act) const {
        for (std::size_t w = 0; w < model_.words; ++w)
            for (Word rest = bits_[set * model_.words + w] & mask[w]; rest != 0; rest &= rest - 1)
                act(w * word_bits + static_cast<std::size_t>(std::countr_zero(rest)));
    }
    template <typename Do>
    void for_each(SetId set, Do act) const {
        for (std::size_t w = 0; w < model_.words; ++w)
            for (Word rest = bits_[set * model_.words + w]; rest != 0; rest &= rest - 1)
                act(w * word_bits + static_cast<std::size_t>(std::countr_zero(rest)));
    }

  private:
    void learn(SetId set, SetId larger);
    void find_elements(SetId set, Shape& shape, Word& places);
    void want_all_that_follows(Shape& shape, Word& places) const;
    void find_tests(SetId set, SetId larger, Shape& shape, Word& places);
    bool splits_set(const PlannedTest& test, SetId set, std::size_t member) const;
    void map_places(Word visited);
    bool superfluous(const Split& split, const Stretch& among) const;

    const Model& model_;
    bool few_places_;  // so few that a word can hold a set of them
    IndexTable table_;
    std::vector<Word> bits_;
    std::vector<Shape> shapes_;
    std::vector<std::uint32_t> place_for_;
    std::vector<std::uint32_t> tests_;
    std::vector<Stretch> splits_of_;
    std::vector<Split> splits_;
    std::vector<SetId> children_;
    std::vector<Word> common_;                 // scratch of within() and after()
    std::vector<std::uint32_t> element_mark_;  // by element: the last set it was seen in
    std::uint32_t mark_ = 0;
};

}  // namespace halfsplit::plan
