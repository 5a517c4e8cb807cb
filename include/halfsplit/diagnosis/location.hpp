// Measured distances as evidence: how likely the figure is under each explanation.
//
// A fault that lies along the stretch occupies an interval of metres: a run its length, evenly; a connector,
// splice or bridge plug a point. The chance of the figure is the normal density, mixed over the interval, and
// a share for gross errors, even over the stretch, so that nothing is ruled out for good. Each kind of
// measurement speaks of the faults that it can see:
//   capacitance            opens of that line (between the lines: of either). A line without an open reads
//                          alike from both ends, as if it were open in the middle.
//   ohms between the lines shorts H to L
//   ohms of one line       shorts of it to ground
//   loop                   shorts of that line to ground or supply
// Two such faults at once read as something from the one to the other. Every other explanation gets the share
// for gross errors alone.
#pragma once

#include "halfsplit/diagnosis/explanation.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/electrics/stretch.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace halfsplit::diagnosis {

struct Located {
    std::uint64_t sequence = 0;                               // record of the job it came from
    harness::Index from = harness::none, to = harness::none;  // points
    electrics::DistanceMethod method = electrics::DistanceMethod::Capacitance;
    electrics::DistanceLines lines = electrics::DistanceLines::High;
    double metres = 0, deviation = 0;  // from the first end
    Situation situation;
    bool operator==(const Located&) const = default;
};

// Chance that a figure has nothing to do with the fault: the wrong wire, an end mixed up, another kind of
// fault. A judgement, no source.
inline constexpr double gross_distance = 0.05;

// Whether the distance can count on some variant of the vehicle: what it was measured along is a stretch with
// nothing else on it, as things stood (corrections of the log may say otherwise by now).
bool counts(const Located& located, Predictor& predictor);

class Locations {
  public:
    // Keeps references to both. Finds each stretch once for each variant.
    Locations(Predictor& predictor, const std::vector<Located>& located);

    // How many figures there are.
    std::size_t size() const { return located_.size(); }

    // Density of one of them under the explanation, per metre. A figure that cannot count on its variant is a
    // gross error there; one that counts on no variant says nothing, and is 1. Linear in the parts of the
    // stretch.
    double chance(std::size_t figure, const Explanation& explanation) const;

  private:
    struct Interval {
        double low = 0, high = 0;
    };
    std::optional<Interval> interval_of(const Explanation& explanation, const Located& located,
                                        const electrics::Stretch& stretch) const;

    Predictor& predictor_;
    const std::vector<Located>& located_;
    std::vector<std::vector<std::optional<electrics::Stretch>>> stretches_;  // by figure, then variant
    std::vector<double> lengths_;  // by figure; metres, 0 where it counts on no variant
};

}  // namespace halfsplit::diagnosis
