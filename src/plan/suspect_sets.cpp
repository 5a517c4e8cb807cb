#include "plan/suspect_sets.hpp"

#include <algorithm>

namespace halfsplit::plan {

namespace {

constexpr Stretch not_yet{0, IndexTable::none};

// The members of a set that are in a mask; false when there are none.
bool intersect(std::span<const Word> set, std::span<const Word> mask, std::vector<Word>& common) {
    Word any = 0;
    for (std::size_t w = 0; w < set.size(); ++w) any |= common[w] = set[w] & mask[w];
    return any != 0;
}

}  // namespace

SuspectSets::SuspectSets(const Model& model)
    : model_(model), few_places_(!model.travel_differs.empty()), common_(model.words) {
    std::size_t elements = 0;
    for (const Suspect& suspect : model.suspects)
        elements = std::max<std::size_t>(elements, suspect.element + 1);
    element_mark_.assign(elements, 0);
}

SetId SuspectSets::all() {
    return intern(model_.at_first);
}

SetId SuspectSets::intern(std::span<const Word> bits, SetId larger) {
    const std::uint64_t hash = hash_of(bits);
    const SetId known = table_.find(hash, [&](SetId other) {
        return std::equal(bits.begin(), bits.end(), bits_.data() + other * model_.words);
    });
    if (known != IndexTable::none) return known;
    const auto set = static_cast<SetId>(shapes_.size());
    bits_.insert(bits_.end(), bits.begin(), bits.end());
    shapes_.emplace_back();
    splits_of_.push_back(not_yet);
    table_.insert(hash, set, [&](SetId other) { return hash_of(this->bits(other)); });
    learn(set, larger);
    return set;
}

SetId SuspectSets::within(SetId set, std::span<const Word> mask) {
    return intersect(bits(set), mask, common_) ? intern(common_, set) : IndexTable::none;
}

SetId SuspectSets::without(SetId set, std::uint32_t element) {
    common_.assign(model_.words, 0);
    bool any = false;
    for_each(set, [&](std::size_t s) {
        if (model_.suspects[s].element == element) return;
        common_[s / word_bits] |= Word{1} << s % word_bits;
        any = true;
    });
    return any ? intern(common_, set) : IndexTable::none;
}

SetId SuspectSets::going_on(SetId set, std::uint32_t element) {
    if (!shapes_[set].goes_on) return IndexTable::none;
    common_.assign(model_.words, 0);
    bool any = false;
    for_each(set, [&](std::size_t s) {
        const std::uint32_t then = model_.suspects[s].then;
        if (model_.suspects[s].element != element || then == IndexTable::none) return;
        common_[then / word_bits] |= Word{1} << then % word_bits;
        any = true;
    });
    return any ? intern(common_) : IndexTable::none;
}

void SuspectSets::learn(SetId set, SetId larger) {
    Shape shape;
    Word places = 0;
    find_elements(set, shape, places);
    find_tests(set, larger, shape, places);
    if (shape.goes_on) want_all_that_follows(shape, places);
    map_places(places);
    shapes_[set] = shape;
}

void SuspectSets::find_elements(SetId set, Shape& shape, Word& places) {
    ++mark_;
    for_each(set, [&](std::size_t s) {
        const std::uint32_t element = model_.suspects[s].element;
        shape.goes_on = shape.goes_on || model_.suspects[s].then != IndexTable::none;
        if (element_mark_[element] == mark_) return;
        element_mark_[element] = mark_;
        ++shape.elements;
        if (model_.isolating) return;
        const access::Site& site = model_.bare[element].site;
        shape.wanted |= site.need;
        if (few_places_) places |= Word{1} << site.place;
    });
}

// What is true after a find may be looked for anywhere.
void SuspectSets::want_all_that_follows(Shape& shape, Word& places) const {
    for (const Pocket& pocket : model_.pockets) shape.wanted |= pocket.need;
    places = ~Word{0};
}

// Does the test show for anyone in the set something else than for this member?
bool SuspectSets::splits_set(const PlannedTest& test, SetId set, std::size_t member) const {
    const Word* alike = model_.alike(test, member);
    const Word* own = bits_.data() + set * model_.words;
    for (std::size_t w = 0; w < model_.words; ++w)
        if ((own[w] & ~alike[w]) != 0) return true;
    return false;
}

void SuspectSets::find_tests(SetId set, SetId larger, Shape& shape, Word& places) {
    shape.tests.first = static_cast<std::uint32_t>(tests_.size());
    if (shape.elements == 1 && !shape.goes_on) return;
    std::size_t member = 0;
    while ((bits(set)[member / word_bits] >> member % word_bits & 1U) == 0) ++member;
    const auto try_test = [&](std::uint32_t index) {
        const PlannedTest& test = model_.tests[index];
        if (!splits_set(test, set, member)) return;
        tests_.push_back(index);
        shape.wanted |= test.site.need;
        if (few_places_) places |= Word{1} << test.site.place;
    };
    if (larger == IndexTable::none) {
        for (std::uint32_t test = 0; test < model_.tests.size(); ++test) try_test(test);
    } else {
        const Stretch tests = shapes_[larger].tests;
        for (std::uint32_t t = 0; t < tests.count; ++t) try_test(tests_[tests.first + t]);
    }
    shape.tests.count = static_cast<std::uint32_t>(tests_.size()) - shape.tests.first;
}

// Places matter by how far they are from where the set's tests and elements are; of equals the first stands
// for all.
void SuspectSets::map_places(Word visited) {
    const std::size_t places = model_.workshop.places();
    for (std::size_t place = 0; place < places; ++place) {
        std::size_t first = few_places_ ? 0 : place;
        while (first < place && (model_.travel_differs[first * places + place] & visited) != 0) ++first;
        place_for_.push_back(static_cast<std::uint32_t>(first));
    }
}

bool SuspectSets::superfluous(const Split& split, const Stretch& among) const {
    const access::Site& site = model_.tests[split.test].site;
    const std::span own = std::span(children_).subspan(split.children.first, split.children.count);
    for (const Split& other : std::span(splits_).subspan(among.first, among.count)) {
        if (other.children.count != own.size() || other.superfluous || other.test == split.test) continue;
        if (!std::equal(own.begin(), own.end(), children_.begin() + other.children.first)) continue;
        const access::Site& others = model_.tests[other.test].site;
        if (others.place == site.place && (others.need & ~site.need) == 0 && others.minutes <= site.minutes)
            return true;
    }
    return false;
}

std::vector<SetId> SuspectSets::after(SetId set, const PlannedTest& test) {
    std::vector<SetId> left;
    for (std::uint32_t outcome = 0; outcome < test.outcomes; ++outcome) {
        const SetId child = within(set, model_.mask(test, outcome));
        if (child != IndexTable::none) left.push_back(child);
    }
    return left;
}

Stretch SuspectSets::splits(SetId set) {
    if (splits_of_[set].count != not_yet.count) return splits_of_[set];
    const auto first = static_cast<std::uint32_t>(splits_.size());
    for (const std::uint32_t test : tests(set)) splits_.push_back({test, {}, false});
    return splits_of_[set] = {first, static_cast<std::uint32_t>(splits_.size()) - first};
}

Split SuspectSets::work_out(SetId set, std::uint32_t index) {
    if (splits_[index].children.count != 0) return splits_[index];
    const PlannedTest& test = model_.tests[splits_[index].test];
    const auto first = static_cast<std::uint32_t>(children_.size());
    for (std::uint32_t outcome = 0; outcome < test.outcomes; ++outcome) {
        const SetId child = within(set, model_.mask(test, outcome));
        if (child != IndexTable::none) children_.push_back(child);
    }
    Split& split = splits_[index];
    split.children = {first, static_cast<std::uint32_t>(children_.size()) - first};
    split.superfluous = superfluous(split, splits_of_[set]);
    return split;
}

}  // namespace halfsplit::plan
