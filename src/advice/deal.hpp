// A whole plan as the steps of a card.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/advice/card.hpp"

#include "advice/aimed_plan.hpp"
#include "advice/problem.hpp"

namespace halfsplit::advice {

struct DealInput {
    const harness::Harness& harness;
    harness::Index network;
    const access::Costs& costs;
    access::Standing standing;
    const Posed& posed;
};

// What the card says of where it begins; no steps.
Card begun_card(const harness::Harness& harness, harness::Index network, harness::Index clip,
                const access::Standing& standing, const Aim& aim);

// Adds quote, share and steps: those with a chance of least_card_chance or more.
void deal(const DealInput& input, const WholePlan& plan, Card& card);

}  // namespace halfsplit::advice
