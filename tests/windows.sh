#!/usr/bin/env bash
# Builds for Windows, runs the tests under wine as far as they go, compares the program with the one for Linux, packs the
# zip and looks at it (docs/how-to/windows.md). Needs the program for Linux: HALFSPLIT_LINUX, or it is built.
set -euo pipefail
cd "$(dirname "$0")/.."
bash tests/packages.sh g++-mingw-w64-x86-64-posix wine wine64 cmake make libcli11-dev nlohmann-json3-dev libfmt-dev \
    catch2 libvalijson-dev libeigen3-dev unzip binutils
folder="$PWD/.build/windows"
wrong() { echo "windows: $*" >&2; exit 1; }
say() { echo "windows: $*"; }

[ -d "$folder/CMakeFiles" ] ||
    cmake -S . -B "$folder" --toolchain src/packaging/mingw.cmake -DCMAKE_BUILD_TYPE=None -DCMAKE_UNITY_BUILD=ON \
        -DCMAKE_UNITY_BUILD_BATCH_SIZE=45 -DCMAKE_CXX_FLAGS="-O1 -DNDEBUG" -DHALFSPLIT_STRICT=ON \
        -DHALFSPLIT_LINE_EDITING=OFF -DHALFSPLIT_KBL=OFF >/dev/null
nice -n 10 cmake --build "$folder" -j "$(nproc)"
export HALFSPLIT_LINUX="${HALFSPLIT_LINUX:-$PWD/.build/plain/halfsplit}"
if [ ! -x "$HALFSPLIT_LINUX" ]; then
    cmake -S . -B .build/plain -DCMAKE_BUILD_TYPE=None -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=45 \
        -DHALFSPLIT_STRICT=ON -DCMAKE_CXX_FLAGS="-O2 -DNDEBUG" >/dev/null
    nice -n 10 cmake --build .build/plain -j "$(nproc)" --target halfsplit
fi

# A Windows of its own, without a screen.
export WINEPREFIX="$folder/wine" WINEDEBUG=-all WINEDLLOVERRIDES=mscoree,mshtml= DISPLAY=
[ -d "$WINEPREFIX/drive_c" ] || wineboot -i >/dev/null 2>&1
trap 'wineserver -k 2>/dev/null || true' EXIT

# Cases tagged [posix] need what Windows has not: links anybody may make, shells, a circuit simulator; those tagged [kbl]
# the part that is left out.
nice -n 10 wine "$folder/tests/halfsplit_tests.exe" "${@:-~[posix]~[kbl]}" || wrong "tests failed"
[ $# -eq 0 ] || exit 0  # some cases only
bash tests/windows_and_linux.sh "$folder/halfsplit.exe" || wrong "the two programs differ"

rm -f "$folder"/*.zip
(cd "$folder" && cpack >/dev/null)
zip="$(ls "$folder"/halfsplit-*-windows-x86_64.zip)"
contents="$(mktemp -d)"
unzip -q "$zip" -d "$contents"
cd "$contents"/halfsplit-*
for file in halfsplit.exe README.md COPYRIGHT.txt docs/how-to/windows.md docs/schema/next.schema.json data/demo/minibus.json \
    data/demo/library/minibus.json data/demo/jobs/minibus-lift-silent.job notices/libfmt-dev.txt; do
    [ -s "$file" ] || wrong "no $file in the zip"
done
headers="$(x86_64-w64-mingw32-objdump -p halfsplit.exe)"
[[ "$headers" == *HIGH_ENTROPY_VA*DYNAMIC_BASE*NX_COMPAT* ]] || wrong "it lies at a fixed address, or its data can be run"
libraries="$(sed -n 's/.*DLL Name: //p' <<<"$headers" | sort -f | tr '\n' ' ')"
[ "$libraries" = "ADVAPI32.dll bcrypt.dll KERNEL32.dll msvcrt.dll SHELL32.dll " ] || wrong "it needs $libraries"
said="$(wine halfsplit.exe --version)"
[[ "$said" == *"line editing: left out"*"harness lists (KBL): left out"* ]] || wrong "it says $said"
wine halfsplit.exe check 'data\demo\minibus.json' >/dev/null || wrong "the demo in the zip is not sound"
say "$(basename "$zip"): $(stat -c %s "$zip") bytes, the program $(stat -c %s halfsplit.exe)"
rm -rf --one-file-system "$contents"
