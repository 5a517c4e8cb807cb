#!/usr/bin/env bash
# Installs what is missing, builds, and plays the main job on invented data: check a harness file, hunt a break in it,
# read the saved job. On a fresh Debian or Ubuntu machine nothing else is needed.
set -euo pipefail
cd "$(dirname "$0")/../.."
bash tests/packages.sh g++ cmake make libcli11-dev nlohmann-json3-dev libfmt-dev catch2 libvalijson-dev libedit-dev \
    libeigen3-dev libmd-dev libpugixml-dev
cmake -S . -B .build/demo -DHALFSPLIT_TESTS=OFF -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build .build/demo -j "$(nproc)" -- --no-print-directory | tail -n 1
program="$PWD/.build/demo/halfsplit"
folder="$(mktemp -d)"
cp -r data/demo/minibus.json data/demo/library "$folder"
cd "$folder"

say() { printf '\n\033[1m%s\033[0m\n\n' "$*"; }
[ -t 1 ] && [ -z "${NO_COLOR:-}" ] || say() { printf '\n%s\n\n' "$*"; }

say "1. Is the harness file sound? (A school minibus with a wheelchair lift; everything in it is invented.)"
"$program" check minibus.json

say "2. The hunt. Everything behind the entry step is silent; the answers after each > are typed for you."
"$program" hunt minibus.json --job monday.job <<'ANSWERS'
lift and rear lamps dead, step dead
wet

auxiliary heater

STEP HTR FLK BLT LIFT REAR PARK
y 10
reading X4.b:1 clip 0.5
reading X4.b:2 clip 0.6
reading STEP:7 clip 0.6
seen X5 faulty green pin, line L, cavity 2
4 housing and pins renewed
59.4
y
y
y
y
y
ANSWERS

say "3. The same job as the shop lead reads it."
"$program" review monday.job | sed -n 1,24p
echo "    (the rest: halfsplit review monday.job)"

say "4. The plan of a fresh hunt on one sheet of paper; once it is known who answers, a job's own card says more."
"$program" card minibus.json --network drive --html card.html
"$program" card minibus.json --network drive | sed -n 1,40p
echo "    (the rest: halfsplit card minibus.json --network drive, or card.html for print)"

say "Now by hand:"
echo "  cd $folder"
echo "  $program hunt minibus.json --job tuesday.job"
echo "An invented fault to hunt: $program rehearse minibus.json --fault X6:apart"
