#!/usr/bin/env bash
# Formatting and static analysis of the whole tree; wants a configured .build/plain.
set -euo pipefail
cd "$(dirname "$0")/.."
bash tests/packages.sh clang-format clang-tidy
git ls-files '*.cpp' '*.hpp' | xargs clang-format --dry-run --Werror
git ls-files 'src/*.cpp' | xargs -P "$(nproc)" -n 4 clang-tidy --quiet -p .build/plain
echo "formatting and static analysis: clean"
