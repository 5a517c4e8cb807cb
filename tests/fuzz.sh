#!/usr/bin/env bash
# Fuzzes each kind of input for so many seconds: tests/fuzz.sh SECONDS [TARGET...]. Builds with clang what is missing.
# Stops with exit code 1 at a crash, a hang, too much memory or a leak, and says how to see it again. docs/fuzzing.md
set -euo pipefail
cd "$(dirname "$0")/.."
seconds="${1:?tests/fuzz.sh SECONDS [TARGET...]}"
shift
all=$(cd tests/fuzz && ls ./*_fuzz.cpp | sed 's|./||; s|_fuzz.cpp||')
targets=("$@")
[ $# -gt 0 ] || mapfile -t targets <<<"$all"
for target in "${targets[@]}"; do
    grep -qx "$target" <<<"$all" || { echo "There is no target '$target'; there are: ${all//$'\n'/ }" >&2; exit 2; }
done

links_fuzzer() {
    echo 'extern "C" int LLVMFuzzerTestOneInput(const unsigned char*, unsigned long) { return 0; }' |
        clang++ -x c++ - -fsanitize=address,undefined,fuzzer -o /dev/null 2>/dev/null
}
command -v clang++ >/dev/null || bash tests/packages.sh clang || true
# Debian has the runtime in a package of its own, named after the version; elsewhere it comes with clang.
if command -v clang++ >/dev/null && ! links_fuzzer; then
    bash tests/packages.sh "libclang-rt-$(clang++ -dumpversion | cut -d. -f1)-dev" || true
fi
if ! links_fuzzer; then
    echo "No fuzzing: clang++ with its fuzzing runtime (libclang-rt-N-dev) is not to be had here." >&2
    exit 0
fi
cmake -S . -B .build/fuzzing -DCMAKE_CXX_COMPILER="$(command -v clang++)" -DCMAKE_BUILD_TYPE=None -DCMAKE_UNITY_BUILD=ON \
    -DCMAKE_UNITY_BUILD_BATCH_SIZE=20 -DHALFSPLIT_SANITIZE=ON -DCMAKE_CXX_FLAGS="-O1 -gline-tables-only" >/dev/null
cmake --build .build/fuzzing -j "$(nproc)" --target "${targets[@]/%/_fuzz}"
bash tests/fuzz/seeds.sh

export seconds
printf '%s\n' "${targets[@]}" | xargs -P "$(nproc)" -n 1 bash tests/fuzz/run_target.sh
