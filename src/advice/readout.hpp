// What a meter shows between two tips: ohms with the battery off, volts with it on, in one figure each.
#pragma once

#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/electrics/assembly.hpp"

#include "advice/candidates.hpp"

#include <string>
#include <vector>

namespace halfsplit::advice {

// A figure is in ohm, or in volt of red against black while no module talks. NaN: the point is not on that
// variant. Infinity: OL, in volts a line that floats.
class Readout {
  public:
    // Keeps a reference to the predictor.
    Readout(diagnosis::Predictor& predictor, electrics::Power power) : predictor_(predictor), power_(power) {}

    std::vector<double> figures(const diagnosis::Explanation& explanation,
                                const diagnosis::Situation& situation,
                                const std::vector<diagnosis::Tips>& tips);
    double figure(const diagnosis::Explanation& explanation, const diagnosis::Situation& situation,
                  const diagnosis::Tips& tips) {
        return figures(explanation, situation, {tips}).front();
    }

    // Whether a meter tells the one from the other. A line that floats may show the same as any other.
    bool told_apart(double figure, double other) const;

    // As classify() and classify_volts().
    std::vector<int> outcomes(const std::vector<double>& figures,
                              const std::vector<std::size_t>& heaviest_first,
                              std::vector<OutcomeClass>& classes) const;
    std::string in_words(const OutcomeClass& outcome, const diagnosis::Tips& tips) const;

  private:
    bool in_volts() const { return power_ != electrics::Power::Off; }

    diagnosis::Predictor& predictor_;
    electrics::Power power_;
};

}  // namespace halfsplit::advice
