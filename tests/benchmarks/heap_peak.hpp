// How much memory is held at most: a program that is linked with heap_peak.cpp counts what `new` hands out.
#pragma once

#include <cstddef>

namespace halfsplit::test {

// Bytes held at most since watching began, beyond what was held then; as the C library rounds them up.
class HeapPeak {
  public:
    HeapPeak();
    std::size_t bytes() const;

  private:
    std::size_t before_;
};

}  // namespace halfsplit::test
