#include "plan/model.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <limits>
#include <unordered_map>
#include <utility>

namespace halfsplit::plan {

namespace {

std::vector<double> with_what_follows(const Outline& outline, std::vector<double> weight_of_kind) {
    for (std::size_t k = 0; k < outline.kinds.size(); ++k)
        if (outline.kinds[k].then != cured && weight_of_kind[k] > 0)
            weight_of_kind[outline.kinds[k].then] = weight_of_kind[k];
    return weight_of_kind;
}

}  // namespace

Model::Model(const Outline& outline, const std::vector<double>& weight_of_kind)
    : workshop(outline.problem.workshop),
      shortest(outline.shortest),
      isolating(outline.problem.bare.empty()) {
    number_suspects(outline, with_what_follows(outline, weight_of_kind));
    link_suspects(outline, weight_of_kind);
    set_family_masks();
    add_tests(outline);
    if (!isolating) add_bare(outline);
    compare_places();
}

void Model::number_suspects(const Outline& outline, const std::vector<double>& weight_of_kind) {
    for (std::size_t k = 0; k < outline.kinds.size(); ++k)
        if (weight_of_kind[k] > 0) kind.push_back(k);
    std::sort(kind.begin(), kind.end(), [&](std::size_t a, std::size_t b) {
        const std::size_t family_a = outline.kinds[a].family, family_b = outline.kinds[b].family;
        if (family_a != family_b) return family_a < family_b;
        return weight_of_kind[a] != weight_of_kind[b] ? weight_of_kind[a] < weight_of_kind[b] : a < b;
    });
    for (const std::size_t k : kind) {
        const std::size_t family = outline.kinds[k].family;
        if (suspects.empty() || outline.kinds[kind[suspects.size() - 1]].family != family)
            family_first.push_back(static_cast<std::uint32_t>(suspects.size()));
        suspects.push_back({weight_of_kind[k], static_cast<std::uint32_t>(outline.kinds[k].element),
                            static_cast<std::uint32_t>(family_first.size() - 1), IndexTable::none});
    }
    family_first.push_back(static_cast<std::uint32_t>(suspects.size()));
    words = (suspects.size() + word_bits - 1) / word_bits;
}

void Model::link_suspects(const Outline& outline, const std::vector<double>& weight_of_kind) {
    std::vector<std::uint32_t> suspect_of(outline.kinds.size(), IndexTable::none);
    for (std::uint32_t s = 0; s < suspects.size(); ++s) suspect_of[kind[s]] = s;
    at_first.assign(words, 0);
    for (std::size_t s = 0; s < suspects.size(); ++s) {
        if (weight_of_kind[kind[s]] <= 0) continue;
        at_first[s / word_bits] |= Word{1} << s % word_bits;
        const std::size_t then = outline.kinds[kind[s]].then;
        if (then == cured) continue;
        suspects[s].then = suspect_of[then];
        goes_on = true;
    }
}

void Model::set_family_masks() {
    family_masks.assign((family_first.size() - 1) * words, 0);
    for (std::size_t s = 0; s < suspects.size(); ++s)
        family_masks[suspects[s].family * words + s / word_bits] |= Word{1} << s % word_bits;
}

void Model::add_tests(const Outline& outline) {
    family_outcomes.assign(family_first.size() - 1, 1);
    step_minutes = std::numeric_limits<double>::infinity();
    for (std::size_t index = 0; index < outline.problem.tests.size(); ++index) {
        const Test& test = outline.problem.tests[index];
        PlannedTest planned{test.site, 0, number_outcomes(outline, test), masks.size(), index};
        if (planned.outcomes < 2) continue;
        masks.resize(masks.size() + planned.outcomes * words);
        for (std::size_t s = 0; s < suspects.size(); ++s)
            masks[planned.first_mask + shown_[s] * words + s / word_bits] |= Word{1} << s % word_bits;
        count_outcomes_by_family();
        planned.site.need = workshop.closure(test.site.need);
        planned.pocket = pocket_of(planned.site);
        step_minutes = std::min(step_minutes, test.site.minutes);
        tests.push_back(planned);
    }
    if (tests.empty()) step_minutes = 0;
    // What could make another superfluous comes first.
    std::stable_sort(tests.begin(), tests.end(), [](const PlannedTest& a, const PlannedTest& b) {
        return std::pair(a.site.minutes, std::popcount(a.site.need)) <
               std::pair(b.site.minutes, std::popcount(b.site.need));
    });
    drop_superfluous_tests();
}

// A test that tells the same as an earlier one, at the same place, and is never dearer may go.
void Model::drop_superfluous_tests() {
    std::unordered_map<std::uint64_t, std::vector<PlannedTest>> kept_by_outcomes;
    const auto all_masks = [&](const PlannedTest& test) {
        return std::span(masks).subspan(test.first_mask, test.outcomes * words);
    };
    const auto same = [](std::span<const Word> a, std::span<const Word> b) {
        return std::equal(a.begin(), a.end(), b.begin(), b.end());
    };
    const auto superfluous = [&](const PlannedTest& test) {
        const std::span<const Word> own = all_masks(test);
        auto& alike = kept_by_outcomes[hash_of(own)];
        for (const PlannedTest& other : alike)
            if (other.site.place == test.site.place && (other.site.need & ~test.site.need) == 0 &&
                same(all_masks(other), own))
                return true;
        alike.push_back(test);
        return false;
    };
    tests.erase(std::remove_if(tests.begin(), tests.end(), superfluous), tests.end());
}

// What the suspects show, numbered as it turns up: into `shown_`. How many different ones.
std::uint32_t Model::number_outcomes(const Outline& outline, const Test& test) {
    std::array<std::int16_t, most_outcomes> number{};
    number.fill(-1);
    std::uint32_t outcomes = 0;
    shown_.resize(suspects.size());
    for (std::size_t s = 0; s < suspects.size(); ++s) {
        std::int16_t& own = number[test.outcome[outline.kinds[kind[s]].hypothesis]];
        if (own < 0) own = static_cast<std::int16_t>(outcomes++);
        shown_[s] = static_cast<std::uint8_t>(own);
    }
    return outcomes;
}

void Model::count_outcomes_by_family() {
    for (std::size_t family = 0; family < family_outcomes.size(); ++family) {
        std::array<bool, most_outcomes> seen{};
        std::uint32_t outcomes = 0;
        for (std::size_t s = family_first[family]; s < family_first[family + 1]; ++s) {
            bool& own = seen[shown_[s]];
            if (!own) ++outcomes;
            own = true;
        }
        family_outcomes[family] = std::max(family_outcomes[family], outcomes);
    }
}

void Model::add_bare(const Outline& outline) {
    bare.resize(outline.elements.size());
    for (const Suspect& suspect : suspects) {
        const std::size_t index = outline.elements[suspect.element];
        access::Site site = outline.problem.bare[index];
        site.need = workshop.closure(site.need);
        bare[suspect.element] = {site, pocket_of(site), index};
    }
    set_step_minutes();
}

// The bound on the number of steps counts only what takes at least twice a step to look at. Take a test's
// minutes as the step unless that would leave most of the probability out.
void Model::set_step_minutes() {
    double counted = 0, total = 0, least_look = std::numeric_limits<double>::infinity();
    for (const Suspect& suspect : suspects) {
        const double look = bare[suspect.element].site.minutes;
        total += suspect.weight;
        if (look >= 2 * step_minutes) counted += suspect.weight;
        if (look > 0) least_look = std::min(least_look, look);
    }
    if (counted < total / 2) step_minutes = std::min(step_minutes, least_look / 2);
}

std::uint32_t Model::pocket_of(const access::Site& site) {
    for (std::size_t p = 0; p < pockets.size(); ++p)
        if (pockets[p].place == site.place && pockets[p].need == site.need)
            return static_cast<std::uint32_t>(p);
    pockets.push_back({site.place, site.need});
    return static_cast<std::uint32_t>(pockets.size() - 1);
}

void Model::compare_places() {
    const std::size_t places = workshop.places();
    if (places > word_bits) return;
    travel_differs.assign(places * places, 0);
    for (std::size_t a = 0; a < places; ++a)
        for (std::size_t b = 0; b < places; ++b)
            for (std::size_t to = 0; to < places; ++to)
                if (workshop.travel(a, to) != workshop.travel(b, to))
                    travel_differs[a * places + b] |= Word{1} << to;
}

}  // namespace halfsplit::plan
