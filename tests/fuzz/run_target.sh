#!/usr/bin/env bash
# Runs one fuzz target for $seconds and tells in one line what came of it. Started by tests/fuzz.sh.
set -euo pipefail
target="$1"
here=".build/fuzz"
program=".build/sanitize/tests/fuzz/${target}_fuzz"
corpus="$here/corpus/$target"
found="$here/found/$target"
log="$here/$target.log"
mkdir -p "$corpus" "$found"

# Longest inputs, in bytes: what takes longer finds no more. What plans is slow, so its inputs are short.
case "$target" in
    harness) longest=16384 ;;
    kbl) longest=32768 ;;
    log | csv | sheet | matrix) longest=8192 ;;
    words) longest=2048 ;;
    *) longest=512 ;;
esac
seeds=("$here/seeds/$target")
[ ! -d "tests/fuzz/corpus/$target" ] || seeds+=("tests/fuzz/corpus/$target")
options=(-max_len="$longest" -timeout=60 -rss_limit_mb=2048 -dict="$here/dict/$target.dict")

code=0
"$program" "${options[@]}" -max_total_time="$seconds" -print_final_stats=1 -artifact_prefix="$found/" \
    "$corpus" "${seeds[@]}" >"$log" 2>&1 || code=$?
if [ "$code" != 0 ]; then
    grep -aE 'ERROR: |runtime error: |does not hold|SUMMARY: |Test unit written' "$log" >&2 || tail -5 "$log" >&2
    echo "$target: stopped. Again: $program $found/FILE; the whole log: $log" >&2
    exit 255  # no further target is begun
fi
# Long runs leave thousands of inputs that cover the same.
if [ "$seconds" -ge 120 ]; then
    rm -rf "$corpus.less" && mkdir "$corpus.less"
    "$program" "${options[@]}" -merge=1 "$corpus.less" "$corpus" "${seeds[@]}" >"$log.merge" 2>&1
    rm -rf "$corpus" && mv "$corpus.less" "$corpus"
fi
executions=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
features=$(grep -aoE ' ft: [0-9]+' "$log" | tail -1 | tr -dc '0-9')
echo "$target: $executions executions, $features features ($(find "$corpus" -type f | wc -l) inputs kept)"
