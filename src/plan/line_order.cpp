#include "plan/line_order.hpp"

#include <algorithm>
#include <bit>
#include <numeric>

namespace halfsplit::plan {

namespace {

// By suspect: how many tests tell it from this one.
std::vector<std::uint32_t> tests_between(const Model& model, std::size_t suspect) {
    std::vector<std::uint32_t> count(model.suspects.size(), 0);
    for (const PlannedTest& test : model.tests) {
        const Word* alike = model.alike(test, suspect);
        const std::span<const Word> other = model.mask(test, alike == model.mask(test, 0).data() ? 1 : 0);
        for (std::size_t w = 0; w < model.words; ++w)
            for (Word rest = other[w]; rest != 0; rest &= rest - 1)
                ++count[w * word_bits + static_cast<std::size_t>(std::countr_zero(rest))];
    }
    return count;
}

// Along a line from one end, who is cut off by a test is beyond all who are not.
bool cuts_the_line(const Model& model, const PlannedTest& test, std::size_t end,
                   const std::vector<std::uint32_t>& distance) {
    const Word* near = model.alike(test, end);
    std::uint32_t farthest_near = 0, nearest_far = IndexTable::none;
    for (std::size_t s = 0; s < model.suspects.size(); ++s) {
        if ((near[s / word_bits] >> s % word_bits & 1U) != 0)
            farthest_near = std::max(farthest_near, distance[s]);
        else
            nearest_far = std::min(nearest_far, distance[s]);
    }
    return farthest_near < nearest_far;
}

}  // namespace

std::optional<std::vector<std::uint32_t>> line_order(const Model& model) {
    if (!std::all_of(model.tests.begin(), model.tests.end(),
                     [](const PlannedTest& test) { return test.outcomes == 2; }))
        return std::nullopt;
    // Whoever is farthest from anyone is at an end.
    const std::vector<std::uint32_t> from_first = tests_between(model, 0);
    const auto end =
        static_cast<std::size_t>(std::max_element(from_first.begin(), from_first.end()) - from_first.begin());
    const std::vector<std::uint32_t> distance = tests_between(model, end);
    for (const PlannedTest& test : model.tests)
        if (!cuts_the_line(model, test, end, distance)) return std::nullopt;
    std::vector<std::uint32_t> order(model.suspects.size());
    std::iota(order.begin(), order.end(), 0U);
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
        if (distance[a] != distance[b]) return distance[a] < distance[b];
        return model.kind[a] < model.kind[b];
    });
    return order;
}

}  // namespace halfsplit::plan
