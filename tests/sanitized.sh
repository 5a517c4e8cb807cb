# Sourced: configures .build/sanitize, the build under the address and undefined-behaviour sanitizers that tests and
# fuzz targets share. With clang where its fuzzing runtime is there or can be had, else with g++. Sets `fuzzer` to
# yes or no.
links_fuzzer() {
    echo 'extern "C" int LLVMFuzzerTestOneInput(const unsigned char*, unsigned long) { return 0; }' |
        clang++ -x c++ - -fsanitize=address,undefined,fuzzer -o /dev/null 2>/dev/null
}
command -v clang++ >/dev/null || bash tests/packages.sh clang || true
# Debian has the runtime in a package of its own, named after the version; elsewhere it comes with clang.
if command -v clang++ >/dev/null && ! links_fuzzer; then
    bash tests/packages.sh "libclang-rt-$(clang++ -dumpversion | cut -d. -f1)-dev" || true
fi
compiler=g++
fuzzer=no
if links_fuzzer; then
    compiler=clang++
    fuzzer=yes
fi
# A folder of another compiler is begun anew.
grep -qs "^CMAKE_CXX_COMPILER:.*$(command -v "$compiler")\$" .build/sanitize/CMakeCache.txt || rm -rf .build/sanitize
# Files of the library are compiled some forty at a time: what they all include is read once.
cmake -S . -B .build/sanitize -DCMAKE_CXX_COMPILER="$(command -v "$compiler")" -DCMAKE_BUILD_TYPE=None \
    -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=45 -DHALFSPLIT_SANITIZE=ON \
    -DCMAKE_CXX_FLAGS="-O1 -gline-tables-only" >/dev/null
