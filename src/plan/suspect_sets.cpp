#include "plan/suspect_sets.hpp"

#include "plan/huffman.hpp"

#include <algorithm>
#include <bit>

namespace halfsplit::plan {

namespace {

constexpr Stretch not_yet{0, IndexTable::none};

std::uint64_t hash_of(std::span<const Word> bits) {
    std::uint64_t hash = bits.size();
    for (const Word word : bits) hash = mix(hash, word);
    return hash ^ hash >> 32U;
}

// The bits of word `w` that stand for suspects below `end`.
Word below(std::size_t end, std::size_t w) {
    if (end >= (w + 1) * word_bits) return ~Word{0};
    return end <= w * word_bits ? 0 : (Word{1} << (end - w * word_bits)) - 1;
}

}  // namespace

SuspectSets::SuspectSets(const Model& model)
    : model_(model), pocket_weight_(model.pockets.size(), 0.0), element_mark_(model.bare.size(), 0) {
    if (model.isolating)
        for (const Suspect& suspect : model.suspects)
            element_mark_.resize(std::max<std::size_t>(element_mark_.size(), suspect.element + 1), 0);
}

SetId SuspectSets::all() {
    std::vector<Word> bits(model_.words, 0);
    for (std::size_t s = 0; s < model_.suspects.size(); ++s) bits[s / word_bits] |= Word{1} << s % word_bits;
    return intern(bits);
}

SetId SuspectSets::intern(std::span<const Word> bits, SetId larger) {
    const std::uint64_t hash = hash_of(bits);
    const auto same = [&](SetId other) {
        return std::equal(bits.begin(), bits.end(), bits_.data() + other * model_.words);
    };
    const SetId known = table_.find(hash, same);
    if (known != IndexTable::none) return known;
    const auto set = static_cast<SetId>(facts_.size());
    bits_.insert(bits_.end(), bits.begin(), bits.end());
    facts_.emplace_back();
    splits_of_.push_back(not_yet);
    parts_of_.push_back(not_yet);
    table_.insert(hash, set, [&](SetId other) { return hash_of(this->bits(other)); });
    learn(set, larger);
    return set;
}

SetId SuspectSets::without(SetId set, std::uint32_t element) {
    std::vector<Word> rest(model_.words, 0);
    for_each(set, [&](std::size_t s) {
        if (model_.suspects[s].element != element) rest[s / word_bits] |= Word{1} << s % word_bits;
    });
    return intern(rest, set);
}

void SuspectSets::learn(SetId set, SetId larger) {
    Facts facts;
    weigh(set, facts);
    find_tests(set, larger, facts);
    map_places(facts);
    facts_[set] = facts;
}

void SuspectSets::weigh(SetId set, Facts& facts) {
    ++mark_;
    std::uint32_t family = IndexTable::none;
    const auto end_family = [&] {
        if (rising_.size() > 1)
            facts.least_minutes += least_steps(rising_, model_.family_outcomes[family], model_.step_minutes,
                                               !model_.isolating, merged_);
        rising_.clear();
    };
    for_each(set, [&](std::size_t s) {
        const Suspect& suspect = model_.suspects[s];
        if (suspect.family != family) {
            end_family();
            family = suspect.family;
            ++facts.families;
        }
        facts.weight += suspect.weight;
        if (counts_for_length(model_, suspect)) rising_.push_back(suspect.weight);
        if (!model_.isolating) {
            const BareSite& bare = model_.bare[suspect.element];
            facts.look_minutes += suspect.weight * bare.site.minutes;
            pocket_weight_[bare.pocket] += suspect.weight;
            facts.wanted |= bare.site.need;
        }
        if (element_mark_[suspect.element] != mark_) {
            element_mark_[suspect.element] = mark_;
            ++facts.elements;
        }
    });
    end_family();
    facts.pockets.first = static_cast<std::uint32_t>(pockets_.size());
    for (std::uint32_t p = 0; p < pocket_weight_.size(); ++p) {
        if (pocket_weight_[p] == 0) continue;
        pockets_.push_back({p, pocket_weight_[p]});
        pocket_weight_[p] = 0;
    }
    facts.pockets.count = static_cast<std::uint32_t>(pockets_.size()) - facts.pockets.first;
}

// Does the test show for anyone in the set something else than for this member?
bool SuspectSets::splits_set(const PlannedTest& test, SetId set, std::size_t member) const {
    const Word* alike = model_.mask(test, model_.shown(test, member)).data();
    const Word* own = bits_.data() + set * model_.words;
    for (std::size_t w = 0; w < model_.words; ++w)
        if ((own[w] & ~alike[w]) != 0) return true;
    return false;
}

void SuspectSets::find_tests(SetId set, SetId larger, Facts& facts) {
    facts.tests.first = static_cast<std::uint32_t>(tests_.size());
    std::size_t member = 0;
    while ((bits(set)[member / word_bits] >> member % word_bits & 1U) == 0) ++member;
    const auto try_test = [&](std::uint32_t test) {
        if (!splits_set(model_.tests[test], set, member)) return;
        tests_.push_back(test);
        facts.wanted |= model_.tests[test].site.need;
    };
    if (facts.elements > 1 && larger == IndexTable::none) {
        for (std::uint32_t test = 0; test < model_.tests.size(); ++test) try_test(test);
    } else if (facts.elements > 1) {
        const Stretch tests = facts_[larger].tests;
        for (std::uint32_t t = 0; t < tests.count; ++t) try_test(tests_[tests.first + t]);
    }
    facts.tests.count = static_cast<std::uint32_t>(tests_.size()) - facts.tests.first;
}

// Places matter by how far they are from where the set's tests and elements are; of equals the first stands for all.
void SuspectSets::map_places(const Facts& facts) {
    const std::size_t places = model_.workshop.places();
    const bool few = !model_.travel_differs.empty();
    Word visited = 0;
    if (few) {
        for (const WeighedPocket& own : std::span(pockets_).subspan(facts.pockets.first, facts.pockets.count))
            visited |= Word{1} << model_.pockets[own.pocket].place;
        for (std::uint32_t t = 0; t < facts.tests.count; ++t)
            visited |= Word{1} << model_.tests[tests_[facts.tests.first + t]].site.place;
    }
    for (std::size_t place = 0; place < places; ++place) {
        std::size_t first = few ? 0 : place;
        while (first < place && (model_.travel_differs[first * places + place] & visited) != 0) ++first;
        place_for_.push_back(static_cast<std::uint32_t>(first));
    }
}

bool SuspectSets::superfluous(const Split& split, const Stretch& among) const {
    const access::Site& site = model_.tests[split.test].site;
    const auto children = [&](const Split& one) {
        return std::span(children_).subspan(one.children.first, one.children.count);
    };
    for (std::uint32_t s = 0; s < among.count; ++s) {
        const Split& other = splits_[among.first + s];
        const access::Site& others = model_.tests[other.test].site;
        if (other.test != split.test && !other.superfluous && others.place == site.place &&
            (others.need & ~site.need) == 0 && others.minutes <= site.minutes &&
            std::ranges::equal(children(split), children(other)))
            return true;
    }
    return false;
}

std::vector<SetId> SuspectSets::after(SetId set, const PlannedTest& test) {
    std::vector<SetId> left;
    std::vector<Word> common(model_.words);
    for (std::uint32_t outcome = 0; outcome < test.outcomes; ++outcome) {
        const std::span<const Word> mask = model_.mask(test, outcome), own = bits(set);
        Word any = 0;
        for (std::size_t w = 0; w < model_.words; ++w) any |= common[w] = own[w] & mask[w];
        if (any != 0) left.push_back(intern(common, set));
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
    const std::vector<SetId> left = after(set, model_.tests[splits_[index].test]);
    Split& split = splits_[index];
    split.children = {static_cast<std::uint32_t>(children_.size()), static_cast<std::uint32_t>(left.size())};
    children_.insert(children_.end(), left.begin(), left.end());
    split.superfluous = superfluous(split, splits_of_[set]);
    return split;
}

Stretch SuspectSets::parts(SetId set) {
    if (parts_of_[set].count != not_yet.count) return parts_of_[set];
    const auto first = static_cast<std::uint32_t>(parts_.size());
    std::vector<Word> part(model_.words);
    for (std::size_t family = 0; family + 1 < model_.family_first.size(); ++family) {
        const std::size_t from = model_.family_first[family], to = model_.family_first[family + 1];
        Word any = 0;
        for (std::size_t w = 0; w < model_.words; ++w)
            any |= part[w] = bits(set)[w] & below(to, w) & ~below(from, w);
        if (any != 0) parts_.push_back(intern(part, set));
    }
    return parts_of_[set] = {first, static_cast<std::uint32_t>(parts_.size()) - first};
}

}  // namespace halfsplit::plan
