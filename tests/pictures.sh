#!/usr/bin/env bash
# The pictures of the README still come out of their one command, as they are stored: the screen of the hunt to the letter;
# the review in the same size, its bytes within a half (fonts differ from machine to machine; a blank one is far below).
# Usage: pictures.sh BUILD_FOLDER
set -euo pipefail
for program in tmux chromium; do
    command -v "$program" >/dev/null || { echo "$program is not installed (the Debian package $program has it)"; exit 77; }
done
cd "$(dirname "$0")/.."
made="$(mktemp -d)"
trap 'rm -rf "$made"' EXIT
bash docs/pictures/make.sh "$1" "$made"
if ! diff -u docs/pictures/hunt.svg "$made/hunt.svg"; then
    echo "after a wanted change: bash docs/pictures/make.sh $1 docs/pictures" >&2
    exit 1
fi

# Signature, then width and height from the header (Portable Network Graphics, ISO/IEC 15948, 5.2 and 11.2.2).
header_of() { od -An -v -tx1 -N24 "$1"; }
stored="$(stat -c %s docs/pictures/review.png)"
found="$(stat -c %s "$made/review.png")"
if [ "$(header_of docs/pictures/review.png)" != "$(header_of "$made/review.png")" ] ||
    [ "$found" -lt $((stored / 2)) ] || [ "$found" -gt $((stored * 3 / 2)) ]; then
    echo "review.png has another size than the stored one ($found bytes, stored $stored):" >&2
    header_of "$made/review.png" >&2
    exit 1
fi
