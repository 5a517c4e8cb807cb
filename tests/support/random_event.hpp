// Events of every kind with odd content, for tests of what must hold for all of them.
#pragma once

#include "halfsplit/job/event.hpp"

#include <random>
#include <string>

namespace halfsplit::test {

class RandomEvents {
  public:
    explicit RandomEvents(unsigned seed) : random_(seed) {}

    // Any kind at all.
    job::Event any() { return of_kind(number(std::variant_size_v<job::Body> - 1)); }
    // The kind at that place in job::Body.
    job::Event of_kind(std::size_t index);
    // Valid UTF-8 with line ends, quotes, zero bytes, characters of two to four bytes.
    std::string text();
    // From 0 to `most`.
    std::size_t number(std::size_t most) {
        return std::uniform_int_distribution<std::size_t>(0, most)(random_);
    }

  private:
    bool coin() { return number(1) == 1; }
    double figure();
    std::vector<std::string> texts();
    harness::Difference difference();
    job::Body body(std::size_t index);

    std::mt19937_64 random_;
};

}  // namespace halfsplit::test
