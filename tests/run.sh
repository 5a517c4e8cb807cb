#!/usr/bin/env bash
# Installs what is missing, builds, runs every test. As argument: "sanitize" for the same under the address and
# undefined-behaviour sanitizers, "threads" under the one for threads, "clang" with clang++. docs/development/testing.md
set -euo pipefail
cd "$(dirname "$0")/.."
kind="${1:-plain}"
bash tests/configure.sh "$kind"
cmake --build ".build/$kind" -j "$(nproc)"
leave_out=()
case "$kind" in sanitize | threads) leave_out=(-LE long) ;; esac  # the plain run has all of it
export TSAN_OPTIONS="halt_on_error=1 ${TSAN_OPTIONS:-}"
ctest --test-dir ".build/$kind" -j "$(nproc)" --output-on-failure "${leave_out[@]}"
