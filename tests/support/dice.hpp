// Random numbers that are the same on every machine: splitmix64 (Steele, Lea, Flood 2014).
#pragma once

#include <cstddef>
#include <cstdint>

namespace halfsplit::tests {

class Dice {
  public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}
    std::uint64_t next() {
        std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ULL);
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
        return z ^ (z >> 31U);
    }
    std::size_t below(std::size_t limit) { return static_cast<std::size_t>(next() % limit); }
    double roll() { return static_cast<double>(next() >> 11U) * 0x1.0p-53; }  // 0 to 1

  private:
    std::uint64_t state_;
};

}  // namespace halfsplit::tests
