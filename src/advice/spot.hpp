// Names and words of the harness for the places a recommendation speaks of.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"

#include <string>
#include <vector>

namespace halfsplit::advice {

Spot spot_of(const harness::Harness& harness, const diagnosis::Contact& contact);
Spot spot_of_part(const harness::Harness& harness, harness::Index index);

std::vector<CoverStep> cover_steps(const harness::Harness& harness,
                                   const std::vector<harness::Index>& covers);

// The usual cautions for a place and the covers on the way, each a whole sentence that defers to the maker's
// procedure.
std::vector<std::string> cautions(const harness::Harness& harness, harness::Index place,
                                  const std::vector<harness::Index>& covers);

// The same for every site that a hand has to go to, all covers on, each sentence once.
std::vector<std::string> cautions_at(const harness::Harness& harness, const access::Costs& costs,
                                     const std::vector<access::Site>& sites);

// Sentences for the figures that are assumptions in this file.
// And the minutes that came from a library.
std::vector<std::string> assumed(const harness::Harness& harness, const harness::Assumptions& rates);

}  // namespace halfsplit::advice
