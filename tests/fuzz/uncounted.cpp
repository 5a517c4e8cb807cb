// What g++'s -fsanitize-coverage calls. In programs of the sanitizer build that are not fuzzed nobody counts;
// those that are have counters.cpp.
extern "C" {

__attribute__((no_sanitize_coverage)) void __sanitizer_cov_trace_pc() {}
__attribute__((no_sanitize_coverage)) void __sanitizer_cov_trace_cmpf(float, float) {}
__attribute__((no_sanitize_coverage)) void __sanitizer_cov_trace_cmpd(double, double) {}

}  // extern "C"
