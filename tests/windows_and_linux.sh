#!/usr/bin/env bash
# The program for Windows, under wine, against the one for Linux (HALFSPLIT_LINUX): what one writes the other reads, to
# the byte. Argument: the program for Windows. tests/windows.sh starts it.
set -euo pipefail
cd "$(dirname "$0")/.."
windows="$1"
here="$(mktemp -d)"
trap 'rm -rf --one-file-system "$here"' EXIT
cp -r data/demo/. "$here"
cp -r tests/data/wires "$here"
cd "$here"
wrong() { echo "windows_and_linux: $*" >&2; exit 1; }
on() { if [ "$1" = linux ]; then "$HALFSPLIT_LINUX" "${@:2}"; else wine "$windows" "${@:2}"; fi; }
# Both say the same, byte for byte, with the same exit code.
alike() {
    local code_of_linux=0 code_of_windows=0
    on linux "$@" >linux.out 2>linux.err </dev/null || code_of_linux=$?
    on windows "$@" >windows.out 2>windows.err </dev/null || code_of_windows=$?
    [ "$code_of_linux" = "$code_of_windows" ] || wrong "$*: exit $code_of_linux and $code_of_windows"
    cmp linux.out windows.out || wrong "$*: other output"
    cmp linux.err windows.err || wrong "$*: other errors"
    count=$((count + 1))
    [ -z "${VERBOSE:-}" ] || echo "alike: $*"
}
count=0
export COLUMNS=80

# The same of the same files: findings of every kind, JSON, pictures, plans, reviews of every job, sheets.
alike check . --json
alike check broken
alike check no/such/file.json
alike survey minibus.json --json
alike expect minibus.json --table --json
alike draw minibus.json
alike draw forestry.json --text
alike card minibus.json
alike next minibus.json --job none.job
for sheet in minibus.wires forestry.wires; do alike draft "$sheet" --json; done
alike draft wires/trailer.csv --network GND
for job in jobs/{forestry-slew-loom,minibus-lift-silent}.job; do
    alike review "$job" --json
    alike review "$job" --columns 40
    alike review "$job" --html "$(basename "$job").html"
done

# A job begun on the one goes on on the other, and on the first again: each refuses a chain of digests with a break.
for first in linux windows; do
    second=windows
    [ "$first" = linux ] || second=linux
    job="$first.job"
    on $first note minibus.json --job "$job" intake complaint="heizung tot: Grüße, Łódź, 車" >/dev/null
    on $second note minibus.json --job "$job" answers silent LIFT,REAR >/dev/null
    on $first note minibus.json --job "$job" safe ignition=off bus=asleep battery=off waited=10 >/dev/null
    # As an editor of Windows ends its lines.
    printf 'remark one\r\nremark zwei: ü\r\n' | on $second hunt minibus.json --job "$job" >/dev/null
    printf 'remark three\n' | on $first hunt minibus.json --job "$job" >/dev/null
    [ "$(grep -c '"remark"' "$job")" = 3 ] || wrong "$job: $(cat "$job")"
    ! grep -q $'\r' "$job" || wrong "$job has carriage returns"
    alike review "$job" --json
    alike next minibus.json --job "$job" --json
    # All but the times, and what is worked out from them.
    sed -E 's/"time":"[^"]*"|"checksum":"[^"]*"//g' "$job" >"$first.bare"
done
cmp linux.bare windows.bare || wrong "the same entries make other records"
sed '2s/LIFT/LAFT/' linux.job >damaged.job
alike review damaged.job

# Files of an editor of Windows.
for file in minibus.json minibus.wires wires/trailer.csv; do
    mkdir -p crlf/library
    sed 's/$/\r/' "$file" >"crlf/$(basename "$file")"
done
cp library/*.json crlf/library/
alike check crlf/minibus.json
alike draft crlf/minibus.wires --json
alike draft crlf/trailer.csv --network GND

# Whole files that they write.
for system in linux windows; do
    on $system draft minibus.wires -o "library/$system.json" 2>/dev/null
    on $system card minibus.json --html "$system.html" >/dev/null
    on $system draw minibus.json -o "$system.svg" >/dev/null
done
cmp library/linux.json library/windows.json
cmp linux.svg windows.svg
cmp <(sed 's/linux//g' linux.html) <(sed 's/windows//g' windows.html)

# Not for others to read: what wine makes of the list of access (its administrators are the group).
[[ "$(stat -c %A windows.job)" == -rw*--- ]] || wrong "windows.job has permissions $(stat -c %A windows.job)"
# Paths as they are typed there.
full="$(winepath -w "$here/minibus.json" 2>/dev/null)"
on windows check "$full" >/dev/null || wrong "$full is not found"
echo "windows_and_linux: alike in $count commands; jobs go from one to the other and back"
