#!/usr/bin/env bash
# Installs what is missing, builds, runs every test. With "sanitize" as argument: the same under the address and
# undefined-behaviour sanitizers.
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
fi
# Files of the library are compiled some forty at a time: what they all include is read once.
cmake -S . -B ".build/$kind" -DCMAKE_BUILD_TYPE=None -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=45 \
    "${options[@]}" >/dev/null
cmake --build ".build/$kind" -j "$(nproc)"
ctest --test-dir ".build/$kind" -j "$(nproc)" --output-on-failure "${leave_out[@]}"
