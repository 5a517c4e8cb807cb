#!/usr/bin/env bash
# What fuzzing starts from, made of the demo, the test data and the transcripts, and the words of schemas as
# dictionaries. Started by tests/fuzz.sh.
set -euo pipefail
here=".build/fuzz"
rm -rf "$here/seeds" "$here/dict"
mkdir -p "$here/dict"
for source in tests/fuzz/*_fuzz.cpp; do
    target=$(basename "$source" _fuzz.cpp)
    mkdir -p "$here/seeds/$target"
    cp "tests/fuzz/$target.dict" "$here/dict/" 2>/dev/null || : >"$here/dict/$target.dict"
done

# Words in quotes as they stand in JSON.
words() { grep -ohE '"[A-Za-z0-9_.-]+"' "$@" | sort -u | sed 's/"/\\"/g; s/.*/"&"/'; }
words docs/schema/harness.schema.json >>"$here/dict/harness.dict"
words docs/schema/job-record.schema.json >>"$here/dict/log.dict"
words docs/schema/matrix.schema.json >>"$here/dict/matrix.dict"
# Long options of every command.
grep -ohE '"(-.,)?--[a-z-]+' src/cli/*.cpp src/cli/*.hpp | grep -oE -- '--[a-z-]+' | sort -u | sed 's/.*/"&"/' \
    >>"$here/dict/command.dict"
cat tests/fuzz/words.dict >>"$here/dict/hunt.dict"

cp tests/data/{small_chain,lamp_feed}.json tests/data/networks/*.json data/demo/broken/*.json "$here/seeds/harness/"
cp data/demo/library/*.json "$here/seeds/harness/"
cp data/demo/*.wires "$here/seeds/sheet/"
cp tests/data/wires/*.csv "$here/seeds/csv/"
cp data/demo/*.kbl "$here/seeds/kbl/"
cp data/demo/matrix.json "$here/seeds/matrix/"

# Of the jobs: what happened, an event a line, without the long ones (the harness, the advice).
for job in data/demo/jobs/*.job; do
    sed -n 's/.*,"event":\(.*\),"checksum":"[0-9a-f]*"}$/\1/p' "$job" | grep -v '"kind":"\(opened\|recommended\)"' \
        >"$here/seeds/log/$(basename "$job")"
done

# Of the transcripts: what was typed in a hunt, what was noted, and each command line, an argument a line.
awk -v here="$here/seeds" '
    /^\$ / {
        ++n; hunt = ($2 == "hunt"); out = here "/command/" n
        line = substr($0, 3); gsub(/ /, "\n", line); gsub(/"/, "", line); print line "\n" > out
        if ($2 == "note") {
            words = $0; sub(/^\$ note [^ ]+ --job [^ ]+ (-- )?/, "", words); print words > (here "/words/noted")
        }
    }
    /^< ?/ && n {
        typed = substr($0, 3); print typed > out
        if (hunt) { if (!begun[n]++) print "new" > (here "/hunt/" n); print typed > (here "/hunt/" n); print typed > (here "/words/" n) }
    }' tests/cli/transcripts/*.txt
