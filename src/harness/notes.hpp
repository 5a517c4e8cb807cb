// What is worth knowing of a sound harness and wrong with none of it: notes, for those who ask for them.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include "base/collector.hpp"

namespace halfsplit::harness {

// Ids opens-when-unplugged, look-alike-pairs, nothing-in-front, way-assumed, never-used. Linear but for buses
// with a ring, where each module that the pair goes through is tried (up to a thousand of them).
void note_meaning(const Harness& harness, Collector& findings);

}  // namespace halfsplit::harness
