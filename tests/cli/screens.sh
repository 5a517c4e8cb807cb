#!/usr/bin/env bash
# One hunt as a person sees it in a terminal of the given width, once with bold and once without (NO_COLOR), held against
# tests/cli/screens/. With HALFSPLIT_APPROVE=1 in the environment the screens are written anew, to be read and approved.
# Usage: screens.sh FOLDER_OF_THE_PROGRAM COLUMNS
set -euo pipefail
cd "$(dirname "$0")/../.."
command -v tmux >/dev/null || { echo "tmux is not installed (the Debian package tmux has it)"; exit 77; }
programs="$(realpath "$1")"
columns="$2"
rows=24
[ "$columns" -ge 80 ] || rows=30  # a telephone held upright
. tests/cli/tmux_screen.sh

# The screen under a heading, as lines of text: ESC as \e, empty lines at the end left out.
shot() {
    printf '%s\n' "== $1"
    local as_shown as_written
    as_shown="$(on_screen capture-pane -p -t main | sed 's/ *$//')"
    as_written="$(on_screen capture-pane -p -J -t main | sed 's/ *$//')"
    if [ "$as_shown" != "$as_written" ]; then
        echo "a line is wider than $columns columns, the terminal had to break it:" >&2
        diff <(echo "$as_shown") <(echo "$as_written") >&2
        return 1
    fi
    printf '%s\n' "$(seen | sed 's/\x1b/\\e/g')"
}

# A bad probe contact reads open at X4; the fault is a green pin of line H at the entry step.
conversation() {
    local folder="$screen_folder/$1"
    mkdir "$folder"
    cp data/demo/minibus.json "$folder/van.json"
    cp -r data/demo/library "$folder"
    start_screen "$columns" "$rows" "$folder" PATH="$programs:$PATH" "${@:2}"
    answer "halfsplit hunt van.json --job a.job"
    for text in "step and lift dead" wet "" "" "STEP HTR FLK BLT LIFT REAR PARK" "y 10"; do answer "$text"; done
    shot "The first step"
    answer "why"
    answer "if open"
    shot "Asked: why, and if open"
    answer "map"
    shot "Asked: map"
    answer "o"
    shot "After an open"
    answer "reading X4.b:1 clip 0.6"
    shot "Read again: a contradiction"
    for text in "undo 11" 0.6 0.6; do answer "$text"; done
    shot "After some readings"
    for text in 9k "f green pin" "3 pin and housing renewed" 59.4 y y y y y; do answer "$text"; done
    shot "The end of the job"
    on_screen kill-server
}

compare() {
    local stored="tests/cli/screens/$1.txt" found="$screen_folder/$1.txt"
    conversation "$@" >"$found"
    if [ -n "${HALFSPLIT_APPROVE:-}" ]; then
        cp "$found" "$stored"
    else
        diff -u "$stored" "$found"
    fi
}

compare "${columns}_bold"
compare "${columns}_no_color" NO_COLOR=1

# Nothing is told by bold alone, and without it no escape sequence is left.
diff -u <(sed 's/\\e\[[01]m//g' "$screen_folder/${columns}_bold.txt") "$screen_folder/${columns}_no_color.txt"
