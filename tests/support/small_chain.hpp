// The harness of tests/data/small_chain.json, read once.
#pragma once

#include "halfsplit/harness/harness.hpp"

namespace halfsplit::test {

const harness::Harness& small_chain();

}  // namespace halfsplit::test
