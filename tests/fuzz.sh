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

. tests/sanitized.sh  # configures .build/sanitize; sets fuzzer
if [ "$fuzzer" = no ]; then
    echo "No fuzzing: clang++ with its fuzzing runtime (libclang-rt-N-dev) is not to be had here." >&2
    exit 0
fi
cmake --build .build/sanitize -j "$(nproc)" --target "${targets[@]/%/_fuzz}"
bash tests/fuzz/seeds.sh

export seconds
printf '%s\n' "${targets[@]}" | xargs -P "$(nproc)" -n 1 bash tests/fuzz/run_target.sh
