// How the bus is arranged for a reading: what is apart, where the clip sits, whether it is dead (for ohms) or
// live (for volts). The first is how things stand; every other is one step away from it, besides switching
// the battery.
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
    electrics::Power power = electrics::Power::Off;
    bool scan = false;  // nothing is measured: the modules are asked who answers
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
    electrics::Power power = electrics::Power::Off;
    bool scanned = true;  // who answers as things stand is known
};

// The terminal at the diagnostic socket that modules are asked from; none where the network is not at a
// socket.
harness::Index scanning_terminal(const harness::Harness& harness, harness::Index network);

// Minutes to bring the bus from one to the other. Working on a bus ends with the battery off and waiting in
// any case: while it is live that is owed already, and to make it live again is to owe it once more, at once.
double power_minutes(electrics::Power from, electrics::Power to, const harness::Assumptions& rates);

// Whether a voltmeter could be worth asking: a short to ground or supply is worth a thought, the levels of
// the bus are known, and nothing is apart (nobody connects a battery to a bus in pieces).
bool volts_may_tell(const harness::Harness& harness, harness::Index network, const diagnosis::Belief& belief);

// The arrangements that are planned with: how things stand; each part that is apart plugged in again; each
// terminator off, which turns H to L into a locator for opens; where a short is worth a thought, each
// connector, loop module and bridge plug apart, which shows on which side it is; the clip at each of the
// `most_clips` other points that are nearest at hand; where volts may tell, the bus awake and asleep; who
// answers as things stand, where nobody has asked, and with each of those parts unplugged that may have a
// short behind them. All but the last four are dead.
std::vector<Arrangement> arrangements(const ArrangementInput& input, std::size_t most_clips);

// What is read in an arrangement, red first. How things stand, or with a part plugged in again: whole-bus
// readings at the clip, continuity of each line from the clip to every other point, and H to L at every other
// point. A terminator off: H to L at every point. Another part apart: H to L and line H to ground and to
// supply at each of its own points. The clip moved: continuity from there. A live bus: volts of each line
// against ground at every point, the clip's first; asleep, unless it is so now, at the clip alone. Who
// answers: nothing is measured.
std::vector<diagnosis::Tips> readings_in(const Arrangement& arrangement, const harness::Harness& harness,
                                         harness::Index network);

}  // namespace halfsplit::advice
