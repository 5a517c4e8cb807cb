// What a reading in volts may show, as outcomes that a voltmeter can tell apart.
#pragma once

#include "halfsplit/diagnosis/volts.hpp"

#include "advice/candidates.hpp"

#include <optional>
#include <string>
#include <vector>

namespace halfsplit::advice {

// As classify() does for ohms, by what a meter shows while no module talks. 0 V is always an outcome, because
// a bad contact reads so; a line that floats counts there as well, since a meter's own 10 Mohm draw it to its
// other lead.
std::vector<int> classify_volts(const std::vector<std::optional<double>>& at_rest,
                                std::vector<OutcomeClass>& classes);

// The number of that outcome.
int zero_outcome(const std::vector<OutcomeClass>& classes);

// "about 2.5 V", "about 0 V"; where traffic moves it, how far: "about 2.5 V, with traffic up to 3.5 V".
std::string in_words(const OutcomeClass& outcome, diagnosis::TipVolts::Pulled pulled);

}  // namespace halfsplit::advice
