// What the planner and the survey both start from: the readings that can be asked for, what they may show,
// and the ways the vehicle could be that are worth telling apart.
#pragma once

#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"

#include <string>
#include <vector>

namespace halfsplit::advice {

// One outcome of a reading: predictions a meter cannot tell apart.
struct OutcomeClass {
    double low_ohm = 0, high_ohm = 0;  // infinity: OL
    bool not_there = false;            // the point is not on that variant of the vehicle
    bool volts = false;                // of a reading in volts: the next two in place of the first
    double low_volt = 0, high_volt = 0;
    bool scan = false;  // who answers, in place of all of the above
    std::vector<harness::Index> answering{};
};

// Ohms: "closed, below 3 ohm", "about 240 ohm", "open (OL)".
std::string in_words(const OutcomeClass& outcome);

// Positions by falling weight.
std::vector<std::size_t> heaviest_first(const std::vector<double>& weights);

// Sorts predictions into outcomes that a meter can tell apart, lowest first; returns the outcome of each.
// From the heaviest prediction down, each that is distinguishable from all heavier ones makes an outcome; the
// rest belong to the nearest. Open is always an outcome, because a bad contact reads so. NaN (not on that
// variant) is an outcome of its own, the last. Cost: predictions x outcomes.
std::vector<int> classify(const std::vector<double>& predicted,
                          const std::vector<std::size_t>& heaviest_first, std::vector<OutcomeClass>& classes);

// Explanations that differ only by ohms are one: the likeliest stands for them.
struct Representative {
    const diagnosis::Explanation* explanation = nullptr;  // into the belief
    double best = 0;                                      // its own probability
    double probability = 0;                               // of all it stands for
};
// In order of variant and fault. Those below `least` are left out.
std::vector<Representative> representatives(const harness::Harness& harness, const diagnosis::Belief& belief,
                                            double least);

// Whole-bus readings at the clip (H to L, each line to ground and to supply) and continuity from there. Red
// is carried about, black is on the clip.
std::vector<diagnosis::Tips> candidate_readings(const harness::Harness& harness, harness::Index network,
                                                harness::Index clip);

// Continuity of each line from the clip to every other point of the network.
std::vector<diagnosis::Tips> continuity_from(const harness::Harness& harness, harness::Index network,
                                             harness::Index clip);

// H to L at every point of the network, H first.
std::vector<diagnosis::Tips> pairs_of_points(const harness::Harness& harness, harness::Index network);

}  // namespace halfsplit::advice
