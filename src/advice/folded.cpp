#include "halfsplit/advice/card.hpp"
#include "halfsplit/base/ranking.hpp"

#include <algorithm>
#include <numeric>

namespace halfsplit::advice {

namespace {

// Steps are reached by one way each, so that no step is likelier than the one before it: the likeliest hang
// together.
std::vector<char> likeliest(const Card& card, std::size_t most) {
    std::vector<std::size_t> order(card.steps.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    // Alike: the earlier, which may lead to the other.
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return likelier(card.steps[a].chance, card.steps[b].chance);
    });
    std::vector<char> kept(card.steps.size(), 0);
    for (std::size_t i = 0; i < std::min(most, order.size()); ++i) kept[order[i]] = 1;
    return kept;
}

// A step that only leads back to the screen is none; later steps first.
void drop_what_leads_nowhere(const Card& card, std::vector<char>& kept) {
    for (std::size_t i = card.steps.size(); i-- > 0;) {
        const auto& outcomes = card.steps[i].outcomes;
        const bool leads = std::any_of(outcomes.begin(), outcomes.end(), [&](const CardOutcome& outcome) {
            return outcome.goes_to == 0 || kept[outcome.goes_to - 1] != 0;
        });
        if (!leads) kept[i] = 0;
    }
}

}  // namespace

Card folded(const Card& card, std::size_t most) {
    std::vector<char> kept = likeliest(card, most);
    drop_what_leads_nowhere(card, kept);
    std::vector<std::size_t> number(card.steps.size(), 0);
    std::size_t steps = 0;
    for (std::size_t i = 0; i < number.size(); ++i)
        if (kept[i] != 0) number[i] = ++steps;
    Card result = card;
    result.steps.clear();
    result.share = 0;
    for (std::size_t i = 0; i < number.size(); ++i) {
        if (kept[i] == 0) continue;
        CardStep step = card.steps[i];
        step.number = number[i];
        std::vector<CardOutcome> told;
        for (CardOutcome& outcome : step.outcomes) {
            const bool ends = outcome.goes_to == 0;
            if (ends) {
                result.share += outcome.chance;
            } else if (number[outcome.goes_to - 1] == 0) {
                step.folded += outcome.chance;
                continue;
            } else {
                outcome.goes_to = number[outcome.goes_to - 1];
            }
            told.push_back(std::move(outcome));
        }
        step.outcomes = std::move(told);
        result.steps.push_back(std::move(step));
    }
    result.share = std::min(result.share, 1.0);
    return result;
}

}  // namespace halfsplit::advice
