#!/usr/bin/env bash
# The pictures of the README: an invented hunt in a terminal (hunt.svg), and the review of the same job (review.png).
# Usage: make.sh BUILD_FOLDER OUT_FOLDER. Needs tmux and chromium; the minutes are those of a clock made for it.
set -euo pipefail
programs="$(realpath "$1")/tests/stage"
out="$(realpath "$2")"
cd "$(dirname "$0")/../.."
. tests/cli/tmux_screen.sh

columns=80
rows=38
cp data/demo/minibus.json "$screen_folder"
cp -r data/demo/library "$screen_folder"
start_screen "$columns" "$rows" "$screen_folder" PATH="$programs:$PATH"

# The probe slips at X4 and reads open; read again, the hunt goes on to a green pin at the entry step.
answer "halfsplit hunt minibus.json --job monday.job"
for text in "entry step and wheelchair lift dead" "in the wet" "auxiliary heater retrofitted" "" \
    "STEP HTR FLK BLT LIFT REAR PARK" "y 10" o; do
    answer "$text"
done
seen | awk -v columns="$columns" -v rows="$rows" -f docs/pictures/screen_to_svg.awk >"$out/hunt.svg"

for text in "reading X4.b:1 clip 0.6" "undo 13" 0.6 0.6 9k "f green pin, line L" "3 pin and housing renewed" 59.4 \
    y y y y y; do
    answer "$text"
done
"$programs/halfsplit" review "$screen_folder/monday.job" --html "$screen_folder/monday.html" >/dev/null

# Beside each other what a lead looks at first: is it whole, and how the suspects fell.
cp docs/pictures/review_frame.html "$screen_folder/frame.html"
chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --user-data-dir="$screen_folder/profile" \
    --allow-file-access-from-files --virtual-time-budget=3000 --window-size=1180,720 \
    --screenshot="$out/review.png" "file://$screen_folder/frame.html" 2>/dev/null
