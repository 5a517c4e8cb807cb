// Sound harness files with one single line each: a tree of connectors and splices with something at its ends.
#pragma once

#include <cstdint>
#include <string>

namespace halfsplit::test {

// One network "feed"; the clip starts at module "FEED". The same seed gives the same text everywhere.
std::string random_single_line_json(std::uint64_t seed);

}  // namespace halfsplit::test
