#!/usr/bin/env bash
# Installs what is missing, builds, runs every test. As argument: "sanitize" for the same under the address and
# undefined-behaviour sanitizers, "threads" under the one for threads, "clang" with clang++. docs/testing.md
set -euo pipefail
cd "$(dirname "$0")/.."
bash tests/packages.sh g++ cmake make libcli11-dev nlohmann-json3-dev libfmt-dev catch2 libvalijson-dev libedit-dev \
    libeigen3-dev libmd-dev libpugixml-dev ngspice tidy chromium tmux groff-base zsh fish
kind="${1:-plain}"
options=(-DHALFSPLIT_STRICT=ON -DCMAKE_CXX_FLAGS="-O2 -DNDEBUG")
leave_out=()
if [ "$kind" = sanitize ]; then
    options=(-DHALFSPLIT_SANITIZE=ON -DCMAKE_CXX_FLAGS="-Og -g1")
    leave_out=(-LE long)  # the plain run has all of it
elif [ "$kind" = threads ]; then
    # At a fixed address, as with the other sanitizers.
    options=(-DCMAKE_CXX_FLAGS="-O1 -g1 -fsanitize=thread" -DCMAKE_EXE_LINKER_FLAGS=-no-pie)
    export TSAN_OPTIONS="halt_on_error=1 ${TSAN_OPTIONS:-}"
elif [ "$kind" = clang ]; then
    bash tests/packages.sh clang
    options=(-DHALFSPLIT_STRICT=ON -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_CXX_FLAGS="-O1")
elif [ "$kind" != plain ]; then
    echo "There is no kind '$kind'; there are: plain sanitize threads clang" >&2
    exit 2
fi
# Files of the library are compiled some forty at a time: what they all include is read once.
cmake -S . -B ".build/$kind" -DCMAKE_BUILD_TYPE=None -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=45 \
    "${options[@]}" >/dev/null
cmake --build ".build/$kind" -j "$(nproc)"
ctest --test-dir ".build/$kind" -j "$(nproc)" --output-on-failure "${leave_out[@]}"
