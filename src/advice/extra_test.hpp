// Readings beyond the plain ones of a survey, with what each costs from the start: lines to ground and supply
// at any point; H to L, the same and continuity at what one unmated connector or unplugged part lays open,
// and at the clip; continuity across one part, the clip moved there.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/advice/survey.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"

#include <optional>
#include <vector>

namespace halfsplit::advice {

struct ExtraReading {
    harness::Index apart = harness::none;  // what is unmated or unplugged for it
    diagnosis::Tips tips;
    bool moves_clip = false;
    double minutes = 0;
};

// Cheapest first; of equals, less taken apart first, then in order of part and point.
std::vector<ExtraReading> extra_readings(diagnosis::Predictor& predictor, const access::Costs& costs,
                                         harness::Index clip);

// A fault of a group, or the sound bus.
struct GroupMember {
    const diagnosis::Explanation* explanation = nullptr;
    double chance = 0;
};

struct Splits {
    std::optional<ExtraTest> cheapest, sharpest;
};
// The cheapest reading that tells parts of the group apart ("nothing wrong" counts as a part), and the one
// that tells most bits per minute where that is another. All figures from 2 kohm up to OL are one outcome.
Splits split(diagnosis::Predictor& predictor, const access::Costs& costs,
             const std::vector<ExtraReading>& readings, const std::vector<GroupMember>& members);

}  // namespace halfsplit::advice
