// Faults that no reading can see, as notes.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include "base/collector.hpp"

namespace halfsplit::cli {

// One note (unseen-fault) for each network that has such faults. Cost as of advice::ambiguity, so that
// networks of more than 400 parts are not looked at.
void note_unseen(const harness::Harness& harness, Collector& findings);

}  // namespace halfsplit::cli
