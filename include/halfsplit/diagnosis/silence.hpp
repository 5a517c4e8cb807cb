// Which modules answer, seen from the diagnostic socket: evidence free of access cost. How likely a module is
// to stay silent, by what is in the way, is assumed (harness::Assumptions, silent_...), and a harness file
// can set its own.
#pragma once

#include "halfsplit/diagnosis/explanation.hpp"
#include "halfsplit/diagnosis/predictor.hpp"

#include <vector>

namespace halfsplit::diagnosis {

struct Scan {
    std::vector<harness::Index> answering, silent;  // parts
    bool operator==(const Scan&) const = default;
};

// Chance of the scan as a whole. Modules not on the explanation's variant: a silent one says nothing, an
// answering one speaks against the variant. 1 where the network has no socket.
double likelihood(const Scan& scan, const Explanation& explanation, const Situation& situation,
                  Predictor& predictor);

// The modules, sorted, of which each is likelier to answer than not. Not for a network without a socket.
std::vector<harness::Index> likely_to_answer(const Explanation& explanation, const Situation& situation,
                                             Predictor& predictor);

}  // namespace halfsplit::diagnosis
