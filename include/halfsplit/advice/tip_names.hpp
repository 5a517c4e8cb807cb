// Where a meter's leads go and what is taken apart, from names as typed on the command line.
#pragma once

#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"

#include <string>
#include <vector>

namespace halfsplit::advice {

// One or two names: a point alone ("X3.a:4/5") is H to L there; two are terminals, "ground", "supply", or
// "clip" for the clip's terminal on the line of the other. Taken without regard to case where that leaves one
// name only. Throws InputError with the nearest name:
//   unknown-terminal, second-tip-missing (a terminal alone), not-on-the-bus (a tip of another bus or circuit)
diagnosis::Tips tips_named(const harness::Harness& harness, harness::Index network, harness::Index clip,
                           const std::vector<std::string>& names);

// The bus of the first name that is on one; `none` when there is none.
harness::Index network_of_tips(const harness::Harness& harness, const std::vector<std::string>& names);

// Parts that are unmated or unplugged, sorted. Throws InputError: unknown-part, cannot-come-apart (a run, a
// splice, the socket), not-on-the-bus.
electrics::Apart parts_apart(const harness::Harness& harness, diagnosis::Predictor& predictor,
                             const std::vector<std::string>& names);

}  // namespace halfsplit::advice
