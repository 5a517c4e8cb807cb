// What a meter may show to be taken for one outcome of a reading, by somebody who has the outcomes on paper.
#pragma once

#include "advice/candidates.hpp"

#include <vector>

namespace halfsplit::advice {

struct Band {
    double low = 0, high = 0;  // ohm or volt; infinity: OL
};

// By outcome, in their order; 0 to 0 where the point is not there, and of a scan. Around what is predicted
// there is room for leads, contacts and terminators; bands do not overlap, and ends are round figures. Above
// kilohms_from, where nobody can say what a figure stands for, the highest goes up to what a meter shows.
std::vector<Band> bands(const std::vector<OutcomeClass>& classes);

}  // namespace halfsplit::advice
