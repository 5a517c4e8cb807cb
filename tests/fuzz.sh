#!/usr/bin/env bash
# Fuzzes each kind of input for so many seconds: tests/fuzz.sh SECONDS [TARGET...]. Builds what is missing: the objects
# are those of the tests under the sanitizers.
# Stops with exit code 1 at a crash, a hang, too much memory or a leak, and says how to see it again. docs/development/fuzzing.md
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

# libFuzzer comes with clang; Debian has it in a package of its own, named after the version.
command -v clang++ >/dev/null || bash tests/packages.sh clang || true
fuzzer() { find "$(clang++ -print-resource-dir)/lib" -name 'libclang_rt.fuzzer*' 2>/dev/null | grep -q .; }
fuzzer || bash tests/packages.sh "libclang-rt-$(clang++ -dumpversion | cut -d. -f1)-dev" || true
if ! fuzzer; then
    echo "No fuzzing: clang's fuzzing runtime (libclang-rt-N-dev) is not to be had here." >&2
    exit 0
fi
bash tests/configure.sh sanitize
cmake --build .build/sanitize -j "$(nproc)" --target "${targets[@]/%/_fuzz}"
bash tests/fuzz/seeds.sh

export seconds
printf '%s\n' "${targets[@]}" | xargs -P "$(nproc)" -n 1 bash tests/fuzz/run_target.sh
