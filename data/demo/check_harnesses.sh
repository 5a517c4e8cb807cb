#!/bin/sh
# Checks every harness file of a folder; for a step of continuous integration, or a hook before a commit.
# Usage: sh check_harnesses.sh FOLDER [BASELINE]
# Leaves what was found as data in findings.json. Exit code: 0 sound, 1 findings, 2 something could not be read.
set -u
folder="$1"
baseline="${2:-}"
set -- "$folder"
if [ -n "$baseline" ]; then
    set -- "$@" --baseline "$baseline"
fi
halfsplit check "$@" --json >findings.json
code=$?
halfsplit check "$@"
case $code in
0) echo "harness files: sound" ;;
1) echo "harness files: findings, see findings.json" ;;
2) echo "harness files: something could not be read" ;;
*) echo "harness files: halfsplit itself failed" ;;
esac
exit $code
