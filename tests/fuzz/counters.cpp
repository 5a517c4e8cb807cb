// What a fuzzer counts by. The objects of the sanitizer build call `__sanitizer_cov_trace_pc` at each branch
// (g++, -fsanitize-coverage=trace-pc), which libFuzzer no longer serves: the programs of tests/fuzz/ have the
// linker send those calls here (--wrap), and libFuzzer reads the counters.
#include <cstddef>
#include <cstdint>

extern "C" void __sanitizer_cov_8bit_counters_init(std::uint8_t* first, std::uint8_t* end);

namespace {

// Several times as many as an input comes by: two seldom share one.
constexpr std::size_t counter_count = std::size_t{1} << 21;
std::uint8_t counters[counter_count];
[[maybe_unused]] const bool announced =
    (__sanitizer_cov_8bit_counters_init(counters, counters + counter_count), true);

}  // namespace

extern "C" {

__attribute__((no_sanitize_coverage, no_sanitize("address", "undefined"))) void
__wrap___sanitizer_cov_trace_pc() {
    ++counters[reinterpret_cast<std::uintptr_t>(__builtin_return_address(0)) % counter_count];
}

// How two numbers with a point compare is nothing that libFuzzer asks for.
__attribute__((no_sanitize_coverage)) void __sanitizer_cov_trace_cmpf(float, float) {}
__attribute__((no_sanitize_coverage)) void __sanitizer_cov_trace_cmpd(double, double) {}

}  // extern "C"
