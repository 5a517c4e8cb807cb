#include "halfsplit/advice/card.hpp"

#include <algorithm>
#include <utility>

namespace halfsplit::advice {

namespace {

void drop_what_nothing_leads_to(const Card& card, std::vector<char>& kept) {
    std::vector<char> led_to(kept.size(), 0);
    if (!led_to.empty()) led_to.front() = 1;
    for (std::size_t i = 0; i < kept.size(); ++i) {
        if (led_to[i] == 0) kept[i] = 0;
        if (kept[i] == 0) continue;
        for (const CardOutcome& outcome : card.steps[i].outcomes)
            if (outcome.goes_to > 0) led_to[outcome.goes_to - 1] = 1;
    }
}

// A step that only leads back to the screen is none; later steps first.
void drop_what_leads_nowhere(const Card& card, std::vector<char>& kept) {
    for (std::size_t i = kept.size(); i-- > 0;) {
        const auto& outcomes = card.steps[i].outcomes;
        const bool leads = std::any_of(outcomes.begin(), outcomes.end(), [&](const CardOutcome& outcome) {
            return outcome.goes_to == 0 || kept[outcome.goes_to - 1] != 0;
        });
        if (!leads) kept[i] = 0;
    }
}

// With the outcomes that still lead somewhere. `number`: by step, 0 where it is left out.
CardStep renumbered(CardStep step, const std::vector<std::size_t>& number) {
    step.number = number[step.number - 1];
    std::vector<CardOutcome> told;
    for (CardOutcome& outcome : step.outcomes) {
        if (outcome.goes_to > 0) {
            outcome.goes_to = number[outcome.goes_to - 1];
            if (outcome.goes_to == 0) {
                step.folded += outcome.chance;
                continue;
            }
        }
        told.push_back(std::move(outcome));
    }
    step.outcomes = std::move(told);
    return step;
}

}  // namespace

Card folded(const Card& card, std::vector<char> kept) {
    drop_what_nothing_leads_to(card, kept);
    drop_what_leads_nowhere(card, kept);
    std::vector<std::size_t> number(kept.size(), 0);
    std::size_t steps = 0;
    for (std::size_t i = 0; i < kept.size(); ++i)
        if (kept[i] != 0) number[i] = ++steps;
    Card result = card;
    result.steps.clear();
    result.share = 0;
    for (std::size_t i = 0; i < kept.size(); ++i) {
        if (kept[i] == 0) continue;
        result.steps.push_back(renumbered(card.steps[i], number));
        for (const CardOutcome& outcome : result.steps.back().outcomes)
            if (outcome.goes_to == 0) result.share += outcome.chance;
    }
    result.share = std::min(result.share, 1.0);
    return result;
}

}  // namespace halfsplit::advice
