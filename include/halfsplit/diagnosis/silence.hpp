// Which modules answer, seen from the diagnostic socket: evidence free of access cost. The chances are
// assumed figures (both lines open on the way 0.98, one line 0.7, a short anywhere 0.95 for all, a terminator
// out of reach 0.1, nothing in the way 0.03).
#pragma once

#include "halfsplit/diagnosis/explanation.hpp"
#include "halfsplit/diagnosis/predictor.hpp"

#include <vector>

namespace halfsplit::diagnosis {

struct SilenceFigures {
    double both_open = 0.98, one_open = 0.7, shorted = 0.95, terminator_missing = 0.1, sound = 0.03;
};

struct Scan {
    std::vector<harness::Index> answering, silent;  // parts
};

// Chance of the scan as a whole. Modules not on the explanation's variant: a silent one says nothing, an
// answering one speaks against the variant. 1 where the network has no socket.
double likelihood(const Scan& scan, const Explanation& explanation, const Situation& situation,
                  Predictor& predictor, const SilenceFigures& figures = {});

}  // namespace halfsplit::diagnosis
