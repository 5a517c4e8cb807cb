// The ways the vehicle could be that are worth weighing, with their priors.
#pragma once

#include "halfsplit/diagnosis/belief.hpp"

#include "diagnosis/weighing.hpp"

#include <vector>

namespace halfsplit::diagnosis {

// Nothing wrong and every single fault, by variant. Each fault of a repaired part comes twice: the repair
// took or it did not; each bad contact of a reseated part likewise.
std::vector<Numbered> single_explanations(Predictor& predictor, const Evidence& evidence,
                                          const harness::Assumptions& rates);

// Two faults at once. All with all would be too many: those that carry some of the readings better than a
// sound bus does are paired with one another, the best of them and those of repaired parts with everything,
// because the second fault may lie where nothing was read yet. Of a fault's ohms the best alone. In a loop,
// where one open shows nowhere, those that take a line apart together, with all their ohms.
std::vector<Numbered> paired_explanations(const std::vector<Numbered>& singles, Predictor& predictor,
                                          Weighing& weighing, const Evidence& evidence,
                                          const harness::Assumptions& rates);

}  // namespace halfsplit::diagnosis
