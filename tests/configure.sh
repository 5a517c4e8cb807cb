#!/usr/bin/env bash
# Installs what is missing and prepares .build/KIND: plain, sanitize (address, undefined behaviour), threads, clang.
# docs/development/testing.md
set -euo pipefail
cd "$(dirname "$0")/.."
bash tests/packages.sh g++ cmake make libcli11-dev nlohmann-json3-dev libfmt-dev catch2 libvalijson-dev libedit-dev \
    libeigen3-dev libmd-dev libpugixml-dev ngspice tidy chromium tmux groff-base zsh fish
case "$1" in
    plain) options=(-DHALFSPLIT_STRICT=ON -DCMAKE_CXX_FLAGS="-O2 -DNDEBUG") ;;
    sanitize) options=(-DHALFSPLIT_SANITIZE=ON -DCMAKE_CXX_FLAGS="-Og -g1") ;;
    threads) options=(-DHALFSPLIT_SANITIZE=thread -DCMAKE_CXX_FLAGS="-O1 -g1") ;;
    clang)
        bash tests/packages.sh clang
        options=(-DHALFSPLIT_STRICT=ON -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_CXX_FLAGS="-O1")
        ;;
    *)
        echo "There is no kind '$1'; there are: plain sanitize threads clang" >&2
        exit 2
        ;;
esac
# Files of the library are compiled some forty at a time: what they all include is read once.
cmake -S . -B ".build/$1" -DCMAKE_BUILD_TYPE=None -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=45 \
    "${options[@]}" >/dev/null
