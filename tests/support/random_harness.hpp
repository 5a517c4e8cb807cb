// Sound harness files by the hundred, for property tests. The same seed and shape give the same text
// everywhere: the numbers come from splitmix64 and integer arithmetic alone.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace halfsplit::test {

struct RandomHarnessShape {
    enum class Layout { Any, Chain, Backbone, Tee, Star, Ring };
    Layout layout = Layout::Any;
    std::size_t fewest_points = 4;
    std::size_t most_points = 40;  // not exceeded; at least 8 for a tee, 9 for a star or a ring
    bool options = true;           // options, parts that come with them, bridge plugs in their place
    bool marks = true;
};

// One network "main" with a socket "DS" on it.
std::string random_harness_json(std::uint64_t seed, RandomHarnessShape shape = {});

// splitmix64 (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014).
class Random {
  public:
    explicit Random(std::uint64_t seed) : state_(seed) {}
    std::uint64_t next();
    std::size_t below(std::size_t bound) { return static_cast<std::size_t>(next() % bound); }
    std::size_t between(std::size_t least, std::size_t most) { return least + below(most - least + 1); }
    bool chance(std::size_t percent) { return below(100) < percent; }

  private:
    std::uint64_t state_;
};

}  // namespace halfsplit::test
