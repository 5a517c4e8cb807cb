#!/usr/bin/env bash
# Formatting and static analysis of the whole tree; wants a configured .build/plain. With "analyse" as argument: the
# path-by-path analyser instead, without what fires inside the linear-algebra library (portability.UnixAPI) and what would
# order the members of a record by size and not by what they mean (performance.Padding).
set -euo pipefail
cd "$(dirname "$0")/.."
bash tests/packages.sh clang-format clang-tidy
checks=()
if [ "${1:-}" = analyse ]; then
    checks=(--checks='-*,clang-analyzer-*,-clang-analyzer-optin.portability.UnixAPI,-clang-analyzer-optin.performance.Padding')
fi
git ls-files '*.cpp' '*.hpp' | xargs clang-format --dry-run --Werror
git ls-files 'src/*.cpp' | xargs -P "$(nproc)" -n 4 clang-tidy --quiet -p .build/plain "${checks[@]}"
echo "formatting and static analysis: clean"
