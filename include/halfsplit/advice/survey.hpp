// How well the faults of one bus can be told apart by a meter, and at what cost. Terms of IEEE 1522:
// ambiguity group, fraction of faults detected, fraction of faults isolated to a group of a size
// (docs/reference/survey.md says what is counted). Truthful readings, one fault.
#pragma once

#include "halfsplit/advice/quote.hpp"
#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::advice {

// Every way the vehicle could be - each variant of it sound, and with each single fault - sorted by what all
// plain readings would show: those that advice poses with everything mated and the clip where it starts.
struct Ambiguity {
    std::vector<diagnosis::Tips> readings;      // the plain ones
    std::vector<diagnosis::Explanation> cases;  // by variant and fault; one figure of ohms each, the
                                                // likeliest, and of equals the least
    std::vector<double> chance;                 // by case: prior of all figures of ohms together
    std::vector<std::size_t> group;             // by case, from 0 in order of first case
    std::size_t groups = 0;
};
// Two cases are in one group exactly when every reading shows the same outcome for both. Readings are sorted
// into outcomes as planning does. Cost: cases x readings predictions.
Ambiguity ambiguity(diagnosis::Predictor& predictor);

// A share of the faults: each counted alike, and each by its prior.
struct Share {
    double of_faults = 0, by_chance = 0;
};

struct SplitOutcome {
    std::string shows;
    double chance = 0;               // within the group
    std::vector<std::string> parts;  // that stay together
    bool sound = false;              // so would a sound bus show
};

// A reading beyond those: something is taken apart for it, the clip moves, or a line is tried against ground
// or supply elsewhere. It tells parts of a group apart.
struct ExtraTest {
    std::string unplug, unplug_name, unplug_kind;  // part to take apart for it; empty: none
    std::string red, black;                        // tips; `black` may be "ground" or "supply"
    std::string red_line, black_line;              // "H", "L", or empty
    bool moves_clip = false;  // neither tip is where the clip starts, and there are two places to touch
    double minutes = 0;       // from the start, all covers on: walk, open and refit, unmate, clip, read,
                              // back to mate
    double bits = 0;          // what it tells about the part, on average
    std::vector<SplitOutcome> outcomes;  // likeliest first
    std::vector<std::string> cautions;   // whole sentences
};

struct AmbiguityGroup {
    double chance = 0;                  // of its faults, of all faults
    bool sound = false;                 // nothing sees these faults: a sound bus reads the same
    std::vector<std::string> parts;     // in order of the file
    std::vector<std::string> faults;    // PART:MODE, in order
    std::vector<std::string> modes;     // the modes that occur, in words of a fault's name
    std::vector<std::string> variants;  // in words, where only some variants have this group
    std::optional<ExtraTest> cheapest;  // empty: none of those tried splits the group
    std::optional<ExtraTest> sharpest;  // most bits per minute; empty when it is the cheapest
};

struct CostlyPart {
    std::string part, name;
    double minutes = 0;  // to lay it bare from where one stands, with the covers off that are, and refit
    double chance = 0;   // of any fault in it
    double hunt_minutes =
        -1;  // mean of the hunts that end there, by the plan; below 0: the plan leaves it out
};

// A job in progress.
struct Left {
    enum class Stage { Hunting, NothingFound, NotTold, Found, Mended, Cured } stage = Stage::Hunting;
    std::string found;  // part that was seen to be faulty and is not mended yet
    double minutes_spent = 0;
    double refit_minutes = 0;  // owed for covers that are off; part of what they cost when they came off
    Aim aim;
    Quote quote;                     // while hunting
    NotCured not_cured;              // likewise
    std::vector<CostlyPart> costly;  // parts that may be at fault, dearest first
};

struct Survey {
    std::string network, network_name, clip;
    std::size_t parts = 0, points = 0, readings = 0;
    std::vector<std::string> variants;  // in words; one empty text where nothing is left open
    std::size_t faults = 0;             // a fault of two variants counts twice
    Share detected;
    Share to_one, to_two, to_three;      // of the faults detected: in a group of at most so many parts
    std::size_t largest_group = 0;       // parts
    std::vector<AmbiguityGroup> groups;  // of more than one part, or that nothing sees; likeliest first
    Aim aim;
    Quote quote;
    NotCured not_cured;
    std::vector<CostlyPart> costly;    // every part, dearest first
    std::vector<std::string> assumed;  // which figures behind this are assumptions
};

// A network without a probe point has no readings, and nothing of it is detected. Deterministic.
Survey survey(const harness::Harness& harness, harness::Index network, const Aim& aim = {});

}  // namespace halfsplit::advice
