#!/usr/bin/env bash
# Runs every test but those tagged [long] and tells which lines and branches of the library and the program they went
# through: by folder, and every file below 90 % of its lines. What a started program goes through counts as well.
# docs/development/testing.md
set -euo pipefail
cd "$(dirname "$0")/.."
bash tests/packages.sh g++ cmake make libcli11-dev nlohmann-json3-dev libfmt-dev catch2 libvalijson-dev libedit-dev \
    libeigen3-dev libmd-dev libpugixml-dev ngspice tidy chromium tmux groff-base zsh fish gcovr
cmake -S . -B .build/coverage -DCMAKE_BUILD_TYPE=None -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=45 \
    -DHALFSPLIT_COVERAGE=ON -DCMAKE_CXX_FLAGS="-Og" >/dev/null
cmake --build .build/coverage -j "$(nproc)"
find .build/coverage -name '*.gcda' -delete
failed=0
ctest --test-dir .build/coverage -j "$(nproc)" -LE long --output-on-failure || failed=$?
# Without the branches that the compiler adds for exceptions nobody throws by hand.
gcovr --root . --object-directory .build/coverage --filter 'src/' --filter 'include/' --exclude-throw-branches \
    --exclude-unreachable-branches --json-summary .build/coverage/summary.json .build/coverage/CMakeFiles
python3 tests/coverage_table.py .build/coverage/summary.json
exit "$failed"
