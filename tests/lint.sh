#!/usr/bin/env bash
# Formatting and static analysis (clang-tidy, cppcheck) of the whole tree. With "analyse" as argument: the path-by-path
# analyser instead, without what fires inside the linear-algebra library (portability.UnixAPI) and what would order the
# members of a record by size and not by what they mean (performance.Padding).
set -euo pipefail
cd "$(dirname "$0")/.."
bash tests/packages.sh clang-format clang-tidy cppcheck
git ls-files '*.cpp' '*.hpp' | xargs clang-format --dry-run --Werror
if [ "${1:-}" != analyse ]; then
    # File by file, which this one is quick at. Two macros are not followed into the library that has them.
    cmake -S . -B .build/cppcheck -DHALFSPLIT_TESTS=OFF >/dev/null
    cmake --build .build/cppcheck --target embedded_texts >/dev/null
    mkdir -p .build/cppcheck/seen
    cppcheck --project=.build/cppcheck/compile_commands.json -i .build/cppcheck/generated -j "$(nproc)" --quiet \
        --cppcheck-build-dir=.build/cppcheck/seen --enable=warning,style,performance,portability --error-exitcode=1 \
        --suppressions-list=tests/cppcheck_exceptions.txt '-DNLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(...)=' \
        '-DNLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(...)='
fi
# Some forty files of the library as one: what they all include is read once.
cmake -S . -B .build/lint -DHALFSPLIT_TESTS=OFF -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=45 >/dev/null
cmake --build .build/lint --target embedded_texts
options=(--checks=-bugprone-suspicious-include)  # a .cpp in another one
if [ "${1:-}" = analyse ]; then
    # Bounds what is followed through one function, library code and all: half the time, for all that is ours.
    options=(--extra-arg=-Xclang --extra-arg=-analyzer-config --extra-arg=-Xclang --extra-arg=max-nodes=20000)
    options+=(--checks='-*,clang-analyzer-*,-clang-analyzer-optin.portability.UnixAPI,-clang-analyzer-optin.performance.Padding')
fi
find .build/lint src/main.cpp src/packaging/guides.cpp -name 'unity_*.cxx' -o -name main.cpp -o -name guides.cpp |
    xargs -P "$(nproc)" -n 1 clang-tidy --quiet -p .build/lint "${options[@]}"
echo "formatting and static analysis: clean"
