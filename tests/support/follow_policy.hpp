// What a policy takes, by the cost model alone.
#pragma once

#include "halfsplit/plan/policy.hpp"

#include "support/catch.hpp"

#include <algorithm>
#include <cstddef>

namespace halfsplit::plan {

// Follows the policy for one hypothesis, by the cost model alone.
inline double followed(const Policy& policy, const Problem& problem, std::size_t hypothesis) {
    access::Standing standing = problem.start;
    double minutes = 0;
    std::size_t at = policy.steps.empty() ? Policy::over : 0;
    while (at != Policy::over) {
        const PolicyStep& step = policy.steps[at];
        const bool test = step.step == Step::Test;
        access::Site site = test ? problem.tests[step.index].site : problem.bare[step.index];
        site.need = problem.workshop.closure(site.need);
        const double now = problem.workshop.reach(site, standing.place, standing.off);
        CHECK(step.minutes == Approx(now));
        minutes += now;
        standing = {site.place, standing.off | site.need};
        const Hypothesis& own = problem.hypotheses[hypothesis];
        const int outcome = test                        ? problem.tests[step.index].outcome[hypothesis]
                            : own.element != step.index ? 1
                            : own.then == cured         ? 0
                                                        : 2;
        if (outcome == 2 && !test) hypothesis = own.then;
        const auto branch = std::find_if(step.branches.begin(), step.branches.end(),
                                         [&](const auto& one) { return one.outcome == outcome; });
        REQUIRE(branch != step.branches.end());
        at = branch->next;
    }
    return minutes;
}

}  // namespace halfsplit::plan
