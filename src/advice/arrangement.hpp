// How the bus is arranged for a reading: what is apart, and where the clip sits. The first is how things
// stand; every other is one step away from it.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"

#include <cstdint>
#include <vector>

namespace halfsplit::advice {

enum class ArrangingStep : std::uint8_t { None, Unplug, PlugIn, MoveClip };

struct Arrangement {
    ArrangingStep step = ArrangingStep::None;
    harness::Index part = harness::none;  // that is unplugged or plugged in
    electrics::Apart apart;               // all that is apart then
    harness::Index clip = harness::none;  // point
    access::Site site;  // where the step is done, and its minutes; of unplugging, plugging in again included
    // To have things as they stand now: from there to this place, and these minutes.
    std::size_t back_place = 0;
    double back_minutes = 0;
};

struct ArrangementInput {
    const harness::Harness& harness;
    harness::Index network;
    const diagnosis::Belief& belief;
    const access::Costs& costs;
    access::Standing standing;
    harness::Index clip;  // point
};

// The arrangements that are planned with: how things stand; each part that is apart plugged in again; each
// terminator off, which turns H to L into a locator for opens; where a short is worth a thought, each
// connector, loop module and bridge plug apart, which shows on which side it is; the clip at the points that
// are nearest at hand.
std::vector<Arrangement> arrangements(const ArrangementInput& input);

// What is read in an arrangement, red first. How things stand, or with a part plugged in again: whole-bus
// readings at the clip, continuity of each line from the clip to every other point, and H to L at every other
// point. A terminator off: H to L at every point. Another part apart: H to L and line H to ground and to
// supply at each of its own points. The clip moved: continuity from there.
std::vector<diagnosis::Tips> readings_in(const Arrangement& arrangement, const harness::Harness& harness,
                                         harness::Index network);

}  // namespace halfsplit::advice
