#include "benchmarks/heap_peak.hpp"

#include <algorithm>
#include <cstdlib>
#include <malloc.h>
#include <new>

namespace {

// One thread: the benchmarks have no other.
std::size_t held = 0, most = 0;

}  // namespace

// NOLINTBEGIN(cppcoreguidelines-no-malloc): this is what stands behind new.
void* operator new(std::size_t size) {
    void* const block = std::malloc(std::max<std::size_t>(size, 1));
    if (block == nullptr) throw std::bad_alloc();
    held += malloc_usable_size(block);
    most = std::max(most, held);
    return block;
}

void operator delete(void* block) noexcept {
    held -= malloc_usable_size(block);
    std::free(block);
}
// NOLINTEND(cppcoreguidelines-no-malloc)

void operator delete(void* block, std::size_t) noexcept {
    operator delete(block);
}

namespace halfsplit::test {

HeapPeak::HeapPeak() : before_(held) {
    most = held;
}

std::size_t HeapPeak::bytes() const {
    return most - before_;
}

}  // namespace halfsplit::test
