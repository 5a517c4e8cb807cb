// A problem with all that is searched about it under one belief and class of plans.
#pragma once

#include "plan/desk.hpp"

namespace halfsplit::plan {

struct Study {
    Study(const Problem& of, const Limits& within)
        : problem(of), limits(within), outline(of), ground(outline, outline.prior()), desk(ground, within) {}

    const Problem& problem;
    Limits limits;
    Outline outline;
    Ground ground;
    Desk desk;
};

}  // namespace halfsplit::plan
